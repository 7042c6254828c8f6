import { cleanup, fireEvent, render, screen, within } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { fromTable } from '../lib/fixtures/answers';
import { standings } from '../lib/fixtures/contest';
import { m } from '../lib/messages/cards';
import Cards from './Cards.svelte';
import { cardSequence, material } from './fixture';
import FlightCards from './FlightCards.svelte';
import ProgrammeCards from './ProgrammeCards.svelte';

let answers: Record<string, unknown>;

beforeEach(() => {
  answers = {};
  vi.stubGlobal('fetch', fromTable(answers));
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  history.replaceState(null, '', '/');
});

const sheets = () => [...document.querySelectorAll<HTMLElement>('.sheet')];
const open = (query: string, all = material()) => {
  history.replaceState(null, '', query);
  render(Cards, { material: all });
};

describe.each(['sequence', 'caller', 'grades', 'order'])('every page of a %s card', (kind) => {
  it('says what it does not say, and has a code', () => {
    open(`?kind=${kind}`);
    expect(sheets().length).toBeGreaterThan(0);
    for (const sheet of sheets()) {
      expect(within(sheet).getByText(m.safety)).toBeTruthy();
      expect(within(sheet).getByRole('img', { name: /^QR code/ })).toBeTruthy();
    }
  });
});

it('a grade sheet shows flight, seat, places to write in, and no pilot', () => {
  open('?kind=grades&flights=2');
  expect(sheets().map((sheet) => sheet.getAttribute('aria-label'))).toEqual([
    'Grade sheet, flight 2, seat 1, page 1 of 1',
    'Grade sheet, flight 2, seat 2, page 1 of 1',
    'Grade sheet, flight 2, seat 3, page 1 of 1',
  ]);
  const [sheet] = sheets() as [HTMLElement];
  expect(sheet.textContent).not.toContain('Pilot');
  expect(sheet.textContent).toContain(m.cards.signature);
  const row = within(sheet).getByRole('rowheader', { name: '4' }).closest('tr') as HTMLElement;
  expect(row.querySelectorAll('.box')).toHaveLength(5);
  expect(row.textContent).toContain('F');
  const mark = within(sheet).getByText('Positioning').closest('tr') as HTMLElement;
  expect(mark.querySelectorAll('.box')).toHaveLength(3);
});

it('the drawings are those of the wind', async () => {
  open('?flights=one');
  expect(screen.getByText('right 1')).toBeTruthy();
  expect(screen.queryByText('left 1')).toBeNull();
  await fireEvent.change(screen.getByRole('combobox', { name: m.cards.wind }), { target: { value: 'left' } });
  expect(screen.getByText('left 1')).toBeTruthy();
  expect(location.search).toContain('wind=left');
});

it('a figure without a drawing shows its numbers', () => {
  const bare = cardSequence(2);
  const items = bare.items.map((item) => ({ ...item, drawings: { right: '', left: '' } }));
  open('?flights=one', material({ shared: { ...bare, items } }));
  expect(document.querySelector('.drawing')?.textContent?.trim()).toBe('7.1.1.1');
});

it('a sequence that may still change says so on its page', () => {
  open(
    '?flights=one',
    material({ shared: cardSequence(2, { accepted: false, clean: false, withheld: true }) }),
  );
  const warning = `${m.cards.notSignedOff} · ${m.cards.notClean} · ${m.cards.withheld}`;
  expect(screen.getByText(warning)).toBeTruthy();
});

it('a running order for judges has numbers only', async () => {
  open('?kind=order');
  expect(screen.getByText('Pilot 1')).toBeTruthy();
  await fireEvent.change(screen.getByRole('combobox', { name: m.cards.names }), {
    target: { value: 'left-out' },
  });
  expect(screen.queryByText('Pilot 1')).toBeNull();
});

it('the window’s title, which names the file, says what is printed', () => {
  open('?kind=grades&flights=2&seat=3');
  expect(document.title).toBe('Grade sheet · Sportsman · Known · flight 2 · seat 3 · Halfpoint');
});

it.each([
  ['?kind=grades', { panel: [] }, m.cards.noPanel],
  ['?kind=order', { flights: [] }, m.cards.noFlights],
  ['?flights=3', { shared: undefined }, m.cards.emptyHeading],
])('%s says what to do where there is nothing to print', (query, change, heading) => {
  const { shared, ...rest } = { ...material(), ...change };
  open(query, shared ? { ...rest, shared } : rest);
  expect(screen.getByText(heading)).toBeTruthy();
  expect(screen.getByRole<HTMLButtonElement>('button', { name: m.cards.print }).disabled).toBe(true);
});

describe('what is read', () => {
  const { contest, category, programme } = standings();
  const answer = (kind: string, n: number, more = {}) => ({
    head: { epoch: 'e', version: 1 },
    contest,
    category,
    programme: { id: 'p1', name: 'Known', kind },
    items: Array.from({ length: n }, () => ({ kind: 'figure', k: 10, elements: ['7.1.1.1'] })),
    digest: n > 0 ? 'abcdef0123456789' : '',
    revision: 1,
    checked: {
      items: Array.from({ length: n }, (_, i) => ({
        item: i + 1,
        k: 10,
        call: `Call ${i + 1}.`,
        errors: [],
        drawings: { right: '<svg></svg>', left: '<svg></svg>' },
      })),
      findings: [],
      total_k: 10 * n,
      figures: n,
      clean: true,
    },
    ...more,
  });

  beforeEach(() => {
    answers['/api/v1/programmes/p1'] = { contest, category, programme, panel: [], items: [], options: {} };
    answers['/api/v1/programmes/p1/results'] = standings();
  });

  it('is one sequence for all flights of a known programme', async () => {
    answers['/api/v1/programmes/p1/sequence'] = answer('known', 3);
    render(ProgrammeCards, { id: 'p1' });
    expect(await screen.findByText(/3 figures, total K 30/)).toBeTruthy();
    expect(sheets()).toHaveLength(1);
    expect(sheets()[0]?.textContent).toContain('sequence abcdef01');
  });

  it('is each flight’s own in a free programme', async () => {
    const free = { ...programme, kind: 'free' };
    answers['/api/v1/programmes/p1'] = {
      contest,
      category,
      programme: free,
      panel: [],
      items: [],
      options: {},
    };
    answers['/api/v1/flights/f2/sequence'] = answer('free', 4);
    answers['/api/v1/flights/f3/sequence'] = answer('free', 0);
    render(ProgrammeCards, { id: 'p1' });
    expect(await screen.findByText(/4 figures, total K 40/)).toBeTruthy();
    expect(sheets()).toHaveLength(1);
    expect(screen.getByText(/^No sequence is there for flights 1, 3, 4/)).toBeTruthy();
  });

  it('is without a sequence where none may be seen, and the running order is there', async () => {
    history.replaceState(null, '', '?kind=order');
    render(ProgrammeCards, { id: 'p1' });
    expect(await screen.findByText('Mara Quist')).toBeTruthy();
  });

  it('is of one flight', async () => {
    answers['/api/v1/flights/f2/sequence'] = answer('free', 4, { flight: { id: 'f2', number: 2 } });
    render(FlightCards, { id: 'f2' });
    expect(await screen.findByRole('heading', { level: 1 })).toBeTruthy();
    expect(sheets().map((sheet) => sheet.getAttribute('aria-label'))).toEqual([
      'Sequence card, flight 2, page 1 of 1',
    ]);
    expect(screen.queryByRole('combobox', { name: m.cards.flights })).toBeNull();
  });

  it('is said to be missing where a flight has none', async () => {
    answers['/api/v1/flights/f2/sequence'] = answer('free', 0, { flight: { id: 'f2', number: 2 } });
    render(FlightCards, { id: 'f2' });
    expect(await screen.findByText(m.cards.emptyHeading)).toBeTruthy();
  });
});
