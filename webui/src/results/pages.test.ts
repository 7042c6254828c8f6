import { cleanup, render, screen, within } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { fromTable } from '../lib/fixtures/answers';
import { categoryStandings, flight, sheet, standings, wholeContest } from '../lib/fixtures/contest';
import Category from './Category.svelte';
import Contest from './Contest.svelte';
import Contests from './Contests.svelte';
import Programme from './Programme.svelte';
import Sheet from './Sheet.svelte';

let answers: Record<string, unknown>;
let tell: (event: string) => void;

beforeEach(() => {
  answers = {};
  const answered = fromTable(answers);
  vi.stubGlobal('fetch', async (asked: Request | string) => {
    const url = asked instanceof Request ? asked.url : asked;
    return url.endsWith('/events') ? new Response(events()) : answered(asked);
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function events(): ReadableStream {
  return new ReadableStream({
    start: (stream) => {
      tell = (event) => stream.enqueue(new TextEncoder().encode(event));
      tell('id: e:7\ndata: {}\n\n');
    },
  });
}

describe('a programme', () => {
  const path = '/api/v1/programmes/p1/results';
  const names = () => screen.getAllByRole('rowheader').map((cell) => cell.textContent?.trim().split('  ')[0]);

  it('shows the standings with rank, score, how sure, and what the others wait for', async () => {
    answers[path] = standings();
    render(Programme, { id: 'p1' });
    const link = await screen.findByRole('link', { name: 'Mara Quist' });
    expect(link.getAttribute('href')).toBe('/flights/f1');
    const row = link.closest('tr') as HTMLElement;
    expect(
      within(row)
        .getAllByRole('cell')
        .map((cell) => cell.textContent?.trim()),
    ).toEqual([
      '1',
      '1184.57',
      '81.69',
      'Rank 1 to 2, 9 times in 10. First 71 times in 100. Always in the first three.',
    ]);
    expect(await screen.findByText('live')).toBeTruthy();
    expect(screen.getByText('7 of 11 flights in')).toBeTruthy();
    expect(screen.getByText('3 grades missing from seats 2 and 5')).toBeTruthy();
    expect(screen.queryByRole('link', { name: 'Aiko Brandt' })).toBeNull();
  });

  it('reads again when a later version is told, and says who moved', async () => {
    answers[path] = standings();
    render(Programme, { id: 'p1' });
    await screen.findByText('live');
    const flights = standings().flights.map((one) =>
      one.id === 'f2' ? { ...one, rank: 1, score: 1200 } : one.id === 'f1' ? { ...one, rank: 2 } : one,
    );
    answers[path] = standings({ head: { epoch: 'e', version: 8 }, flights });
    tell('id: e:8\ndata: {}\n\n');
    expect(await screen.findByText('up 1')).toBeTruthy();
    expect(
      names()
        .slice(0, 2)
        .map((text) => text?.split(' ')[0]),
    ).toEqual(['Jonas', 'Mara']);
    expect(screen.getByText('The standings changed. 7 of 11 flights are in.')).toBeTruthy();
  });

  it('reads everything again under another epoch, even at a lower version', async () => {
    answers[path] = standings();
    render(Programme, { id: 'p1' });
    await screen.findByText('live');
    answers[path] = standings({ head: { epoch: 'f', version: 2 }, flights: [flight(0)] });
    tell('id: f:2\ndata: {}\n\n');
    expect(await screen.findByText('1 of 1 flight in')).toBeTruthy();
  });

  it('says what to do first where there is nothing', async () => {
    answers[path] = standings({ flights: [] });
    render(Programme, { id: 'p1' });
    expect(await screen.findByText('No flights in this programme yet')).toBeTruthy();
  });

  it('says what is missing and where to go', async () => {
    render(Programme, { id: 'none' });
    const alert = await screen.findByRole('alert');
    expect(alert.textContent).toContain('There is no such programme here');
    const ways = within(alert).getAllByRole('link');
    expect(ways.map((link) => link.getAttribute('href'))).toEqual(['/', '/sign-in']);
  });
});

describe('a sheet', () => {
  const path = '/api/v1/flights/f1/result';

  it('tells every changed grade in a sentence and in numbers', async () => {
    answers[path] = sheet();
    render(Sheet, { id: 'f1' });
    expect(await screen.findByText('Seat 5’s 4.0 was counted at 12 %: the panel saw 7.6.')).toBeTruthy();
    expect(
      screen.getByText('The hard zero of seat 7 was not upheld and counts as the panel’s 6.6.'),
    ).toBeTruthy();
    expect(screen.getByText('Seat 2: “late on the quarter roll”')).toBeTruthy();
    const row = within(await screen.findByRole('table')).getByRole('row', { name: /Hammerhead/ });
    expect(within(row).getAllByRole('cell')[5]?.textContent?.replace(/\s+/g, ' ').trim()).toBe('4.0 12');
    expect(screen.getByText('−30.00')).toBeTruthy();
  });

  it('draws a figure, says its call, and what won most', async () => {
    const drawing = '<svg data-testid="drawn"><path d="M0 0h9"/></svg>';
    const items = sheet().items.map((one) =>
      one.item.number === 2
        ? { ...one, item: { ...one.item, call: 'Called.', drawings: { right: drawing, left: '' } } }
        : one,
    );
    answers[path] = sheet(true, { items });
    render(Sheet, { id: 'f1' });
    expect(await screen.findByText('Called.')).toBeTruthy();
    expect(screen.getAllByTestId('drawn')).toHaveLength(1);
    expect((await screen.findByText('Won most')).nextElementSibling?.textContent).toContain('Humpty');
  });

  it('sets no figure against a field that flies other sequences, and says so', async () => {
    const items = sheet().items.map(({ item, cells, remarks }) => ({ item, cells, remarks }));
    answers[path] = sheet(true, { items });
    render(Sheet, { id: 'f1' });
    expect(await screen.findByText(/^No figure is set against the field here/)).toBeTruthy();
    expect(screen.queryByText('Against the field')).toBeNull();
  });

  it('speaks of no trust where the method has none', async () => {
    answers[path] = sheet(false);
    render(Sheet, { id: 'f1' });
    expect(
      await screen.findByText('Grade of each seat. A grade in brackets was not used as given.'),
    ).toBeTruthy();
    expect(screen.queryByText(/little trusted/)).toBeNull();
  });

  it('says once that a seat was absent', async () => {
    const items = sheet(false).items.map((item) => ({
      ...item,
      cells: item.cells.map((cell) =>
        cell.seat === 3 ? { ...cell, grade: '', reason: 'seat absent' } : cell,
      ),
    }));
    answers[path] = sheet(false, { items });
    render(Sheet, { id: 'f1' });
    expect(await screen.findAllByText('Seat 3 was absent and takes the panel’s values.')).toHaveLength(1);
  });

  it('says why a flight has no score', async () => {
    const waiting = flight(7, { state: 'incomplete', missing: { grades: 1, seats: [3] } });
    answers[path] = sheet(true, { flight: waiting, items: [], seats: [] });
    render(Sheet, { id: 'f1' });
    expect(await screen.findByText(/1 grade missing from seat 3\. The sheet opens when/)).toBeTruthy();
  });
});

it('shows a category with its programmes, pilots and teams', async () => {
  answers['/api/v1/categories/k1/results'] = categoryStandings();
  render(Category, { id: 'k1' });
  expect(await screen.findAllByRole('table')).toHaveLength(2);
  expect(screen.getByRole('link', { name: 'Free' }).getAttribute('href')).toBe('/programmes/p2');
  expect(screen.getByText('Unknown does not count.')).toBeTruthy();
});

it('shows a contest with the state of every programme', async () => {
  answers['/api/v1/contests/c1'] = wholeContest();
  render(Contest, { id: 'c1' });
  const link = await screen.findByRole('link', { name: /^Known/ });
  expect(link.textContent).toContain('7 of 12 flights in');
  expect(screen.getByText('No programme has been set up for this category yet.')).toBeTruthy();
});

it('lists the contests', async () => {
  const { id, name, place, opened } = wholeContest();
  answers['/api/v1/contests'] = { contests: [{ id, name, place, opened }] };
  render(Contests);
  expect(await screen.findByRole('link', { name: /Lindholm Open/ })).toBeTruthy();
});
