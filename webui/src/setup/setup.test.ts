import { cleanup, fireEvent, render, screen, within } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { codeFor } from './codes';
import { Desk } from './desk.svelte';
import { kept } from './drafts';
import Judges from './Judges.svelte';
import { newId, usual } from './make';
import New from './New.svelte';
import { typed } from './numbers';
import Penalties from './Penalties.svelte';
import Pilots from './Pilots.svelte';
import { renameInCombinations } from './renamed';
import type { Setup } from './types';

type Handler = (body: string) => Response | Promise<Response>;
let answers: Record<string, Handler>;
let sent: { asked: string; body: string }[];
let contest: string;
let setup: Setup;

const row = (id: string, revision = 1) => ({ id, revision, position: Number(id.slice(1)) });
function fresh(): Setup {
  return {
    head: { epoch: 'e1', version: 1 },
    contest: { revision: 1, name: 'Tarn Cup', place: 'Tarn', starts: '', ends: '', opened: 'closed' },
    penalties: [{ ...row('k1'), kind: 'Low', points: 50, repeats: true, disqualifies: false }],
    officials: [],
    pilots: [
      { ...row('p1'), code: 'ann', name: 'Ann Ash', affiliation: 'Hill', aircraft: '', note: '' },
      { ...row('p2'), code: 'bea', name: 'Bea Birch', affiliation: 'Vale', aircraft: '', note: '' },
    ],
    categories: [
      {
        ...row('c1'),
        code: 'meadow',
        name: 'Meadow',
        combine: { by: 'weighted-percent', weights: { known: 1 }, tie_break: ['known'], team_best: 3 },
      },
    ],
    entries: [{ ...row('e1'), category: 'c1', pilot: 'p1', ranked: true, team: '' }],
    programmes: [
      {
        ...row('g1'),
        category: 'c1',
        code: 'known',
        name: 'Known',
        kind: 'known',
        cut: 0,
        method: usual,
        panel: [],
      },
    ],
  };
}
const problem = (status: number, errors: { pointer: string; message: string }[] = [], title = 'No') =>
  Response.json({ type: '/api/v1/docs#x', title, status, errors }, { status });

beforeEach(() => {
  contest = newId();
  setup = fresh();
  sent = [];
  window.scrollTo = () => {};
  Element.prototype.scrollIntoView = () => {};
  answers = { [`GET /api/v1/contests/${contest}/setup`]: () => Response.json(setup) };
  vi.stubGlobal('fetch', async (asked: Request | string) => {
    const request = asked instanceof Request ? asked : new Request(new URL(asked, location.href));
    const { pathname } = new URL(request.url);
    if (pathname.endsWith('/events')) return new Promise<Response>(() => {});
    const body = await request.text();
    sent.push({ asked: `${request.method} ${pathname}`, body });
    return (await answers[`${request.method} ${pathname}`]?.(body)) ?? problem(404);
  });
});
afterEach(() => {
  cleanup();
  history.replaceState(null, '', '/');
  localStorage.clear();
  vi.unstubAllGlobals();
});

const patches = () =>
  sent.filter(({ asked }) => asked.startsWith('PATCH')).map(({ body }) => JSON.parse(body));
const onPatch = (handler: Handler) => (answers[`PATCH /api/v1/contests/${contest}/setup`] = handler);
const fill = (field: HTMLElement, value: string) => fireEvent.input(field, { target: { value } });
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const field = async (of: string, label: string) =>
  within(await screen.findByRole('listitem', { name: of })).getByLabelText(label);

describe('a list edited in place', () => {
  it('sends what was changed with the revision that was seen', async () => {
    onPatch((body) => {
      setup.penalties = JSON.parse(body).penalties.map((one: object) => ({ ...one, revision: 2 }));
      return Response.json(setup);
    });
    render(Penalties, { id: contest });
    await fill(await field('Low', 'Points'), '75');
    expect(screen.getByText('1 row not saved.')).toBeTruthy();
    await press('Save');
    expect(await screen.findByText('Saved.')).toBeTruthy();
    expect(patches()).toEqual([{ penalties: [{ ...fresh().penalties[0], points: 75 }] }]);
    expect(kept(contest)).toEqual({});
  });

  it('says beside each field what is wrong, and takes it back when it is changed', async () => {
    onPatch(() => problem(422, [{ pointer: '/pilots/0/code', message: 'another pilot has the code "bea"' }]));
    render(Pilots, { id: contest });
    const code = await field('Ann Ash', 'Code');
    await fill(code, 'bea');
    await press('Save');
    expect(await screen.findByText('another pilot has the code "bea"')).toBeTruthy();
    expect(code.getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByText('Nothing is saved yet: 1 thing is wrong.')).toBeTruthy();
    await fill(code, 'ann2');
    expect(screen.queryByText(/another pilot/)).toBeNull();
  });

  it('sends no number that is none', async () => {
    render(Penalties, { id: contest });
    await fill(await field('Low', 'Points'), 'many');
    await press('Save');
    expect(await screen.findByText('This is not a number.')).toBeTruthy();
    expect(patches()).toEqual([]);
  });

  it('shows both values where somebody else changed the same field, and overwrites neither', async () => {
    onPatch(() => {
      setup.pilots = fresh().pilots.map((one) => ({
        ...one,
        revision: 2,
        name: one.name.replace('Ash', 'Alder'),
      }));
      return problem(409, [{ pointer: '/pilots/0/name', message: 'it is now "Ann Alder"' }]);
    });
    render(Pilots, { id: contest });
    await fill(await field('Ann Ash', 'Name'), 'Ann Aspen');
    await press('Save');
    expect(await screen.findByText('Somebody else made it “Ann Alder” meanwhile.')).toBeTruthy();
    expect(screen.getByText('Yours is “Ann Aspen”.')).toBeTruthy();
    await press('Save');
    expect(patches()).toHaveLength(1);
    onPatch(() => Response.json(setup));
    await press('Keep yours');
    await press('Save');
    await vi.waitFor(() => expect(patches()).toHaveLength(2));
    expect(patches()[1].pilots[0]).toMatchObject({ revision: 2, name: 'Ann Aspen' });
  });

  it('keeps what was typed without a network, through a reload too', async () => {
    onPatch(() => Promise.reject(new TypeError('away')));
    render(Pilots, { id: contest });
    await fill(await field('Ann Ash', 'Aircraft'), 'Swift');
    await press('Save');
    expect(await screen.findByText(/What you typed is kept on this device/)).toBeTruthy();
    expect((await field('Ann Ash', 'Aircraft')) as HTMLInputElement).toHaveProperty('value', 'Swift');
    const again = new Desk(contest);
    again.take(setup);
    expect(again.found).toBe(true);
    expect(again.lists.pilots.get('p1')?.aircraft).toBe('Swift');
  });
});

it('takes the entries out with their pilot', async () => {
  onPatch(() => Response.json(setup));
  render(Pilots, { id: contest });
  await screen.findByRole('listitem', { name: 'Ann Ash' });
  await press('Take out: Ann Ash');
  expect(screen.getByText('Ann Ash is taken out when you save.')).toBeTruthy();
  await press('Save');
  await vi.waitFor(() => expect(patches()).toHaveLength(1));
  expect(patches()[0].pilots[0]).toMatchObject({ id: 'p1', remove: true });
  expect(patches()[0].entries[0]).toMatchObject({ id: 'e1', remove: true });
});

describe('a table', () => {
  it('names every place that is wrong', async () => {
    answers[`POST /api/v1/contests/${contest}/pilots`] = () =>
      problem(422, [
        { pointer: 'row 2, column 1', message: 'row 2, column 1: it is empty; give it a text' },
        { pointer: 'row 3, column 5', message: 'row 3, column 5: "perhaps" is neither yes nor no' },
      ]);
    render(Pilots, { id: contest });
    await fill(await screen.findByLabelText(/paste the table/), 'name\n\n');
    await press('Read it');
    expect(await screen.findByText('Nothing was taken: 2 places are wrong.')).toBeTruthy();
    expect(screen.getByText(/row 3, column 5/)).toBeTruthy();
    expect((screen.getByLabelText(/paste the table/) as HTMLTextAreaElement).value).toBe('name\n\n');
  });

  it('comes to rows that are looked at before they are saved', async () => {
    const judge = {
      id: newId(),
      revision: 0,
      position: 1,
      code: 'kim',
      name: 'Kim Oak',
      duty: 'judge',
      affiliation: '',
    };
    answers[`POST /api/v1/contests/${contest}/officials`] = () =>
      Response.json({ rows: 1, pilots: [], entries: [], officials: [judge] });
    render(Judges, { id: contest });
    await fill(await screen.findByLabelText(/paste the table/), 'name\nKim Oak\n');
    await press('Read it');
    expect(await screen.findByText(/1 row read: 1 person new, 0 changed/)).toBeTruthy();
    expect(screen.getByRole('listitem', { name: 'Kim Oak' })).toBeTruthy();
    expect(screen.getByText('1 row not saved.')).toBeTruthy();
  });
});

describe('a new contest', () => {
  beforeEach(() => {
    answers['GET /api/v1/contests'] = () =>
      Response.json({ contests: [{ id: contest, name: 'Tarn Cup', place: '', opened: 'closed' }] });
    history.replaceState(null, '', '/contests/new');
  });

  it('is made empty, and is set up next', async () => {
    answers['POST /api/v1/contests'] = () => Response.json({ id: 'c9' }, { status: 201 });
    render(New);
    await fill(screen.getByLabelText('Name'), 'Next Cup');
    await press('Make the contest');
    await vi.waitFor(() => expect(location.pathname).toBe('/contests/c9/setup'));
    expect(JSON.parse(sent.at(-1)?.body ?? '')).toEqual({ name: 'Next Cup', place: '' });
  });

  it('is a copy of another one, and says what is wrong beside the field', async () => {
    answers[`POST /api/v1/contests/${contest}/copies`] = () =>
      problem(422, [{ pointer: '/ends', message: '2027-06-11 is before it starts, on 2027-06-12' }]);
    render(New);
    await fireEvent.change(await screen.findByLabelText('Set it up as'), { target: { value: contest } });
    await fireEvent.click(screen.getByLabelText('with its pilots and their entries'));
    await fill(screen.getByLabelText('Name'), 'Next Cup');
    await press('Make the contest');
    const wrong = await screen.findByText(/before it starts/);
    expect(screen.getByLabelText('Last day').getAttribute('aria-describedby')).toBe(wrong.id);
    expect(JSON.parse(sent.at(-1)?.body ?? '')).toMatchObject({ pilots: true, officials: true });
  });
});

it('renames a programme in the weights and the tie break of its category', () => {
  const desk = new Desk(contest);
  desk.take(setup);
  desk.lists.programmes.set('g1', 'code', 'first');
  renameInCombinations(desk);
  expect(desk.lists.categories.get('c1')?.combine).toMatchObject({
    weights: { first: 1 },
    tie_break: ['first'],
  });
});

it.each([
  ['Ann Ash-Müller', [], 'ann-ash-müller'],
  ['Ann', ['ann', 'ann-2'], 'ann-3'],
])('the code of %s beside %j is %s', (name, taken, code) => expect(codeFor(name, taken)).toBe(code));

it.each([
  ['1.5', 1.5],
  [' 2,25 ', 2.25],
  ['-1', -1],
  ['1.', '1.'],
  ['', ''],
  ['0x10', '0x10'],
])('%j is typed for %j', (text, value) => expect(typed(text)).toBe(value));

it('makes ids that every database takes', () => {
  expect(newId()).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});
