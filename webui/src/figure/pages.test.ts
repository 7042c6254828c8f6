import { cleanup, configure, fireEvent, render, screen, within } from '@testing-library/svelte';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { wholeContest } from '../lib/fixtures/contest';
import { checked, FakeService, registered } from '../lib/fixtures/sequence';
import { mara, whoIs } from '../lib/fixtures/who';
import { me } from '../lib/me.svelte';
import ContestSequences from './ContestSequences.svelte';
import Limits from './Limits.svelte';
import Numbers from './Numbers.svelte';
import Sequence from './Sequence.svelte';
import type { Registered, SequenceState, WireItem } from './types';

// The editor has more than a hundred keys: whether each is hidden is costly to ask, and none is.
configure({ defaultHidden: true });
vi.setConfig({ testTimeout: 20_000 });
afterAll(() => {
  configure({ defaultHidden: false });
  vi.resetConfig();
});

const at = '2026-06-12T10:00:00Z';
const loop: WireItem = { kind: 'figure', k: 10, moves: [{ arc: 360 }] };

let service: FakeService;
function serve(table: ConstructorParameters<typeof FakeService>[0]): void {
  service = new FakeService(table);
  vi.stubGlobal('fetch', service.fetch);
}
const last = () => service.sent.at(-1);
const button = (name: string | RegExp) => screen.findByRole('button', { name });
const tap = async (...names: (string | RegExp)[]) => {
  for (const name of names) await fireEvent.click(await button(name));
};

beforeEach(() => {
  localStorage.clear();
  me.is(whoIs({ account: { ...mara, owner: true } }));
});
afterEach(() => {
  cleanup();
  me.isNobody();
  vi.unstubAllGlobals();
  localStorage.clear();
});

describe('the editor', () => {
  const check = 'POST /api/v1/sequence-checks';
  /** A half-built figure is at fault; a whole one carries a finding of its K until it is 14. */
  const answers = ({ items }: { items: WireItem[] }) => {
    const found = checked(items, 'half Cuban eight');
    if (items[0]?.moves?.length !== 3) {
      found.items = found.items.map((item) => ({
        ...item,
        errors: [{ place: 'items[0].moves[0]', text: 'it does not end level' }],
      }));
    } else if (items[0].k !== 14) {
      found.findings = [{ item: 1, rule: 'sum_of_k', level: 'error', text: 'K is not 14' }];
    }
    return found;
  };
  beforeEach(() => serve({ [check]: answers }));
  const tile = () => screen.getByRole('button', { name: /K|no K/ });

  it('builds a figure by taps, and findings come and go', async () => {
    render(Sequence, { props: { target: { kind: 'scratch' } } });
    await tap('Insert a figure', 'Pull 225°');
    expect(await screen.findByText('Move 1: it does not end level')).toBeTruthy();
    await tap('Roll ½', 'Pull 45°');
    expect(await screen.findByRole('heading', { name: '1 Half Cuban eight' })).toBeTruthy();
    expect(screen.getByRole('button', { name: 'Move 2: Line 45° down, ½ roll' })).toBeTruthy();
    const k = screen.getByLabelText('K of the figure');
    await fireEvent.input(k, { target: { value: '12' } });
    expect(await screen.findByText('K is not 14')).toBeTruthy();
    await fireEvent.input(k, { target: { value: '14' } });
    expect(await screen.findByText('The service finds nothing.')).toBeTruthy();
    expect(tile().textContent).toContain('K 14');
  });

  it('offers what can be flown: a stall turn from straight up, a turn from level flight', async () => {
    render(Sequence, { props: { target: { kind: 'scratch' } } });
    await tap('Insert a figure');
    const keys = await screen.findByRole('group', { name: 'Keys for moves' });
    expect(within(keys).getByRole('group', { name: 'Turn' })).toBeTruthy();
    expect(within(keys).queryByRole('group', { name: 'At the top' })).toBeNull();
    await tap('Pull 90°');
    expect(within(keys).queryByRole('group', { name: 'Turn' })).toBeNull();
    expect(within(keys).getByRole('group', { name: 'At the top' })).toBeTruthy();
  });

  it('is one stop for the tab key, with arrows from key to key', async () => {
    render(Sequence, { props: { target: { kind: 'scratch' } } });
    await tap('Insert a figure');
    const keys = await screen.findByRole('group', { name: 'Keys for moves' });
    const all = () => within(keys).getAllByRole('button');
    const stops = () => all().filter(({ tabIndex }) => tabIndex === 0);
    expect(stops()).toHaveLength(1);
    all()[0]?.focus();
    await fireEvent.keyDown(document.activeElement as Element, { key: 'ArrowDown' });
    await fireEvent.keyDown(document.activeElement as Element, { key: 'ArrowRight' });
    expect(document.activeElement?.getAttribute('aria-label')).toBe('Roll ½');
    expect(stops()).toEqual([document.activeElement]);
  });

  it('alters a rotation: its kind, points and side', async () => {
    render(Sequence, { props: { target: { kind: 'scratch' } } });
    await tap('Insert a figure', 'Pull 90°', 'Roll ½', '4 points');
    await fireEvent.click(within(screen.getByRole('group', { name: 'To the' })).getByText('left'));
    expect(await button('Move 2: Line up, 2 of 4 points left')).toBeTruthy();
    await tap('Outside flick');
    expect(await button('Move 2: Line up, ½ outside flick left')).toBeTruthy();
  });

  it('takes the pilot’s own words for what moves cannot say', async () => {
    render(Sequence, { props: { target: { kind: 'scratch' } } });
    await tap('Insert a figure');
    await fireEvent.input(screen.getByLabelText('The call'), { target: { value: 'Tumble, forwards' } });
    await vi.waitFor(() =>
      expect(last()?.body).toMatchObject({ items: [{ words: { call: 'Tumble, forwards' } }] }),
    );
  });

  it('says that the service is away and goes on', async () => {
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no network')));
    render(Sequence, { props: { target: { kind: 'scratch' } } });
    await tap('Insert a figure', 'Pull 360°');
    expect(await screen.findByText(/The service does not answer\. Go on/)).toBeTruthy();
    expect(screen.getByText(/^Kept in this browser/)).toBeTruthy();
  });
});

describe('a sequence at the office', () => {
  const path = '/api/v1/flights/f1/sequence';
  let present: Registered;
  const withError = {
    ...checked([loop]),
    clean: false,
    findings: [{ item: 0, rule: 'min_figures', level: 'error' as const, text: '1 figure; at least 5' }],
  };
  beforeEach(() => {
    present = registered({ items: [loop], digest: 'd1', revision: 1, checked: withError, registered_at: at });
    serve({
      [`GET ${path}`]: () => present,
      [`PUT ${path}`]: () => ({ status: 409, detail: 'another sequence is registered' }),
      [`POST ${path}/sign-off`]: ({ reason }: { reason: string }) =>
        (present = { ...present, signed_off: { digest: 'd1', at, by: 'the office', reason } }),
      'POST /api/v1/sequence-checks': () => withError,
    });
  });
  const open = () => render(Sequence, { props: { target: { kind: 'flight', id: 'f1' } } });

  it('is signed off over an error for a reason only', async () => {
    open();
    const sign = (await button('Sign off')) as HTMLButtonElement;
    expect(sign.disabled).toBe(true);
    await fireEvent.input(screen.getByLabelText(/^Why it is accepted/), { target: { value: 'agreed' } });
    await fireEvent.click(sign);
    expect(await screen.findByText(/“agreed”/)).toBeTruthy();
    expect(last()?.body).toEqual({ digest: 'd1', revision: 1, reason: 'agreed' });
  });

  it('shows where it differs from what somebody else registered', async () => {
    open();
    await fireEvent.input(await screen.findByLabelText('K of the figure'), { target: { value: '12' } });
    present = registered({ items: [{ ...loop, k: 20 }], digest: 'd2', revision: 2 });
    await fireEvent.click((await screen.findAllByRole('button', { name: 'Register' }))[0] as Element);
    const asked = await screen.findByRole('alertdialog');
    expect(asked.textContent).toContain('Item 1');
    expect(asked.textContent).toContain('K 12, Pull 360°');
    expect(asked.textContent).toContain('K 20, Pull 360°');
    await tap('Take the registered one');
    expect(screen.getByLabelText<HTMLInputElement>('K of the figure').value).toBe('20');
    await tap('Undo');
    expect(screen.getByLabelText<HTMLInputElement>('K of the figure').value).toBe('12');
  });

  it('says to others who does this', async () => {
    me.isNobody();
    open();
    expect(await screen.findByText(/signing off and releasing the office’s/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: 'Sign off' })).toBeNull();
  });

  it.each([
    ['the pilot', 'i1', 2],
    ['another pilot', 'i2', 0],
  ])('lets %s register it %j', async (_, pilot, buttons) => {
    const contest = { id: 'c1', name: 'Tarn Valley Cup' };
    me.is(whoIs({ roles: [{ contest, role: 'pilot', pilot }] }));
    open();
    await fireEvent.input(await screen.findByLabelText('K of the figure'), { target: { value: '12' } });
    expect(screen.queryAllByRole('button', { name: 'Register' })).toHaveLength(buttons);
    expect(screen.queryByRole('button', { name: 'Sign off' })).toBeNull();
  });
});

describe('the office’s list', () => {
  const state = (change: Partial<SequenceState> = {}): SequenceState => ({
    digest: 'd1',
    revision: 1,
    errors: 0,
    remarks: 0,
    total_k: 98,
    figures: 7,
    ...change,
  });
  const flight = (number: number, name: string) => ({
    id: `f${number}`,
    number,
    pilot: { id: `i${number}`, name },
  });
  const sequences = [
    state({
      flight: flight(1, 'Mara Quist'),
      described: true,
      signed_off: { digest: 'd1', at, by: 'the office', reason: '' },
    }),
    state({ flight: flight(2, 'Jonas Ferrandel'), errors: 2, described: false }),
    state({ flight: flight(3, 'Aiko Brandt'), digest: '', total_k: 0, figures: 0, described: false }),
  ];

  it('counts what is open, and shows that alone when asked', async () => {
    const contest = wholeContest();
    const programmes = contest.categories.flatMap((one) => one.programmes);
    const [first, ...others] = programmes;
    const answer = (programme: (typeof programmes)[number], list: SequenceState[]) => ({
      head: contest.head,
      contest: { id: contest.id, name: contest.name },
      category: { id: 'k1', name: 'Sportsman' },
      programme: { id: programme.id, name: programme.name, kind: programme.kind },
      sequences: list,
    });
    const lists = [first, ...others].map((one, i) => {
      if (!one) throw new Error('the contest has no programme');
      return [
        `GET /api/v1/programmes/${one.id}/sequences`,
        () => answer(one, i === 0 ? sequences : []),
      ] as const;
    });
    serve({ [`GET /api/v1/contests/${contest.id}`]: () => contest, ...Object.fromEntries(lists) });
    render(ContestSequences, { id: contest.id });
    expect(await screen.findByText('1 not registered')).toBeTruthy();
    expect(screen.getByText('1 not signed off')).toBeTruthy();
    expect(screen.getByText('1 of 3 signed off')).toBeTruthy();
    const row = screen.getByRole('row', { name: /Jonas Ferrandel/ });
    expect(within(row).getByText('2 errors')).toBeTruthy();
    expect(within(row).getByRole('link').getAttribute('href')).toBe('/flights/f2/sequence');
    await tap('those that need something');
    expect(screen.queryByRole('row', { name: /Mara Quist/ })).toBeNull();
    expect(screen.getByRole('row', { name: /Aiko Brandt/ })).toBeTruthy();
  });

  it('says which flights are described, and shows these or the others alone', async () => {
    const contest = wholeContest();
    const programmes = contest.categories.flatMap((one) => one.programmes);
    const lists = programmes.map((programme, i) => [
      `GET /api/v1/programmes/${programme.id}/sequences`,
      () => ({ programme, sequences: i === 0 ? sequences : [state()] }),
    ]);
    serve({ [`GET /api/v1/contests/${contest.id}`]: () => contest, ...Object.fromEntries(lists) });
    render(ContestSequences, { id: contest.id });
    const told = async (name: RegExp) => within(await screen.findByRole('row', { name }));
    expect((await told(/Mara Quist/)).getByText('described')).toBeTruthy();
    expect((await told(/Jonas Ferrandel/)).getByText('not described')).toBeTruthy();
    await tap('described');
    expect(screen.getAllByRole('row', { name: /Quist|Ferrandel|Brandt|The same/ })).toHaveLength(1);
    await tap('not described');
    expect(screen.getAllByRole('row', { name: /Quist|Ferrandel|Brandt|The same/ })).toHaveLength(2);
  });
});

describe('the limits of a category', () => {
  const path = '/api/v1/categories/k1/limits';
  const named = {
    head: { epoch: 'e', version: 1 },
    contest: { id: 'c1', name: 'Lindholm Open' },
    category: { id: 'k1', name: 'Sportsman' },
  };
  const text = () => screen.getByLabelText<HTMLTextAreaElement>(/^The same limits as text/);
  const json = () => JSON.parse(text().value) as unknown;

  it('are a form and a text that say the same, and are set whole', async () => {
    const set = vi.fn(({ limits, note }: { limits: object; note: string }) => ({ ...named, limits, note }));
    serve({
      [`GET ${path}`]: () => ({ ...named, limits: { max_figures: 10 }, note: 'rules of the year' }),
      [`PUT ${path}`]: set,
    });
    render(Limits, { id: 'k1' });
    const most = await screen.findByLabelText<HTMLInputElement>(/^Most figures/);
    expect(most.value).toBe('10');
    await fireEvent.input(most, { target: { value: '9' } });
    expect(json()).toEqual({ max_figures: 9 });
    await fireEvent.input(text(), { target: { value: '{"max_figures": 8, "require": [{"any": ["5."]}]}' } });
    expect(most.value).toBe('8');
    expect(screen.getByLabelText<HTMLInputElement>('Beginning with one of').value).toBe('5.');
    await tap('Set these limits');
    expect(await screen.findByText(/^Set\. Every sequence/)).toBeTruthy();
    expect(set).toHaveBeenCalledWith({
      limits: { max_figures: 8, require: [{ any: ['5.'] }] },
      note: 'rules of the year',
    });
  });

  it('stay as they were while the text cannot be read', async () => {
    serve({ [`GET ${path}`]: () => ({ ...named, limits: { max_figures: 10 }, note: '' }) });
    render(Limits, { id: 'k1' });
    const most = await screen.findByLabelText<HTMLInputElement>(/^Most figures/);
    await fireEvent.input(text(), { target: { value: '{"max_figures": 8' } });
    expect(most.value).toBe('10');
    expect(screen.getByText(/^This cannot be read yet/)).toBeTruthy();
    expect(((await button('Set these limits')) as HTMLButtonElement).disabled).toBe(true);
  });

  it('say beside the field what the service refuses', async () => {
    serve({
      [`GET ${path}`]: () => ({ ...named, note: '' }),
      [`PUT ${path}`]: () => ({
        status: 422,
        errors: [{ pointer: '/limits/max_k', message: 'is too large' }],
      }),
    });
    render(Limits, { id: 'k1' });
    const highest = await screen.findByLabelText<HTMLInputElement>(/^Highest total K/);
    await fireEvent.input(highest, { target: { value: '99999' } });
    await tap('Set these limits');
    expect((await screen.findAllByText(/is too large/)).length).toBeGreaterThan(0);
    expect(highest.getAttribute('aria-invalid')).toBe('true');
  });
});

describe('the organiser’s numbers', () => {
  const path = '/api/v1/contests/c1/numbers';
  it('are sent as typed, and what is wrong is said', async () => {
    let answer: unknown = { status: 422, errors: [{ pointer: '', message: 'row 1, column 2: no K' }] };
    serve({
      'GET /api/v1/contests/c1': () => wholeContest(),
      [`GET ${path}`]: () => 'number,k\n',
      [`PUT ${path}`]: () => answer,
    });
    render(Numbers, { id: 'c1' });
    const table = await screen.findByLabelText('Number, comma, K');
    await fireEvent.input(table, { target: { value: '1.2.3.4,ten' } });
    await tap('Put this table in place');
    expect((await screen.findByRole('alert')).textContent).toContain('row 1, column 2: no K');
    answer = { head: { epoch: 'e', version: 2 }, numbers: 1 };
    await fireEvent.input(table, { target: { value: '1.2.3.4,10' } });
    await tap('Put this table in place');
    expect(await screen.findByText('In place: 1 number.')).toBeTruthy();
    expect(last()?.body).toBe('1.2.3.4,10');
  });
});
