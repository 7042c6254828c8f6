import { cleanup, render, screen, within } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { fromTable } from '../lib/fixtures/answers';
import { sheet as liveSheet } from '../lib/fixtures/contest';
import Publication from './Publication.svelte';
import Publications from './Publications.svelte';
import Sheets from './Sheets.svelte';
import type { Place, Publication as Published, Summary } from './types';

let answers: Record<string, unknown>;

beforeEach(() => {
  answers = {};
  vi.stubGlobal('fetch', fromTable(answers));
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function summary(number: number, change: Partial<Summary> = {}): Summary {
  return {
    id: `u${number}`,
    number,
    category: { id: 'k1', name: 'Sportsman' },
    programme: { id: 'p1', name: 'Known' },
    state: 'provisional',
    published_at: '2026-06-12T12:20:00Z',
    protest_until: '2099-06-12T13:20:00Z',
    reason: '',
    ...change,
  };
}

function place(change: Partial<Place>): Place {
  return {
    pilot: 'a',
    name: 'Mara Quist',
    affiliation: 'Lindholm',
    aircraft: 'Merlin 6',
    scores: [],
    ...change,
  };
}

function published(change: Partial<Published> = {}): Published {
  return {
    about: summary(2, { supersedes: 'u1' }),
    contest: { id: 'c1', name: 'Lindholm Open' },
    statement: 'halfpoint-publication/1\n',
    signature: 'AAAA',
    key: { id: '0'.repeat(64), pem: '' },
    method: { name: 'consensus', fallback: '', seats: 7 },
    programmes: [],
    standing: [
      place({ pilot: 'b', name: 'Jonas Ferreyra', status: 'flown', score: 1100.1, percent: 70.5, rank: 2 }),
      place({
        status: 'flown',
        score: 1184.57,
        percent: 81.69,
        rank: 1,
        certainty: { rank_low: 1, rank_high: 2, p_first: 0.7, p_podium: 1 },
      }),
      place({ pilot: 'c', name: 'Aiko Brandt', status: 'withdrawn', score: 0, percent: 0 }),
    ],
    teams: [],
    changes: [
      { what: 'score', pilot: 'a', name: 'Mara Quist', from: '1180.00', to: '1184.57' },
      {
        what: 'grade',
        pilot: 'a',
        name: 'Mara Quist',
        item: 3,
        judge: 'j2',
        seat: 2,
        from: '7.0',
        to: '7.5',
      },
    ],
    ...change,
  };
}

const cells = (row: HTMLElement) =>
  within(row)
    .getAllByRole('cell')
    .map((cell) => cell.textContent?.trim());

describe('a publication', () => {
  it('shows the standing by rank, and why somebody has no score', async () => {
    answers['/api/v1/publications/u2'] = published();
    answers['/api/v1/contests/c1/publications'] = { publications: [summary(1), summary(2)] };
    render(Publication, { id: 'u2' });
    const link = await screen.findByRole('link', { name: 'Mara Quist' });
    expect(link.getAttribute('href')).toBe('/publications/u2/sheets?pilot=a');
    expect(cells(link.closest('tr') as HTMLElement).slice(0, 3)).toEqual(['1', '1184.57', '81.69']);
    expect(screen.getByText('withdrawn')).toBeTruthy();
    expect(screen.getByText('Provisional')).toBeTruthy();
    expect(screen.queryByText('This is no longer what stands.')).toBeNull();
  });

  it('names what it changed, each pilot once', async () => {
    answers['/api/v1/publications/u2'] = published();
    answers['/api/v1/contests/c1/publications'] = { publications: [summary(1), summary(2)] };
    render(Publication, { id: 'u2' });
    const table = await screen.findByRole('table', { name: 'What changed' });
    expect(
      within(table)
        .getAllByRole('row')
        .slice(1)
        .map((row) => cells(row)),
    ).toEqual([
      ['score', '1180.00', '1184.57'],
      ['grade of figure 3, seat 2', '7.0', '7.5'],
    ]);
  });

  it('leads to what took its place', async () => {
    answers['/api/v1/publications/u2'] = published();
    answers['/api/v1/contests/c1/publications'] = {
      publications: [
        summary(2),
        summary(3, { category: { id: 'k2', name: 'Other' } }),
        summary(4, { state: 'official' }),
      ],
    };
    render(Publication, { id: 'u2' });
    const newer = await screen.findByRole('link', { name: 'Publication 4, official, took its place' });
    expect(newer.getAttribute('href')).toBe('/publications/u4');
  });

  it('of a category shows what each programme adds, and the teams', async () => {
    const { programme, ...about } = summary(2);
    expect(programme).toBeTruthy();
    answers['/api/v1/publications/u2'] = published({
      about,
      combine: 'sum-percent',
      programmes: [{ programme: 'known', name: 'Known', counts: true }],
      standing: [
        place({ score: 81.69, rank: 1, scores: [{ programme: 'known', score: 1184.57, percent: 81.69 }] }),
      ],
      teams: [{ team: 'North', total: 81.69, rank: 1, pilots: ['Mara Quist'] }],
      changes: [],
    });
    answers['/api/v1/contests/c1/publications'] = { publications: [about] };
    render(Publication, { id: 'u2' });
    const row = (await screen.findByText('Mara Quist', { selector: '.name' })).closest('tr') as HTMLElement;
    expect(cells(row)).toEqual(['1', '81.69', '81.69']);
    expect(screen.getByText('North')).toBeTruthy();
  });
});

it('the list says which one stands', async () => {
  answers['/api/v1/contests/c1'] = {
    head: { epoch: 'e', version: 1 },
    id: 'c1',
    name: 'Lindholm Open',
    place: '',
    opened: 'live',
    categories: [],
  };
  answers['/api/v1/contests/c1/publications'] = {
    publications: [summary(1), summary(2, { state: 'official' })],
  };
  render(Publications, { id: 'c1' });
  const items = await screen.findAllByRole('listitem');
  expect(items.filter((item) => item.textContent?.includes('stands')).length).toBe(1);
  expect(screen.getByText('superseded by 2')).toBeTruthy();
});

it('sheets stand by rank, or one alone', async () => {
  const live = liveSheet();
  const sheetOf = (pilot: string, name: string, rank: number) => ({
    flight: place({ pilot, name, status: 'flown', score: 1000, percent: 70, rank }),
    panel_score: 1000,
    standard_error: 9,
    penalties: [],
    seats: live.seats,
    sequence: 0,
    rows: live.items.map(({ cells, remarks, value = 0, points = 0 }) => ({ cells, remarks, value, points })),
  });
  answers['/api/v1/publications/u2/sheets'] = {
    about: summary(2),
    contest: { id: 'c1', name: 'Lindholm Open' },
    key: '0'.repeat(64),
    method: { name: 'consensus', fallback: '', seats: 7 },
    ranks: 2,
    sequences: [live.items.map(({ item }) => item)],
    sheets: [sheetOf('b', 'Jonas Ferreyra', 2), sheetOf('a', 'Mara Quist', 1)],
  };
  const { unmount } = render(Sheets, { id: 'u2', pilot: '' });
  const names = async () =>
    (await screen.findAllByRole('article')).map((one) => one.getAttribute('aria-label'));
  expect(await names()).toEqual(['Mara Quist', 'Jonas Ferreyra']);
  unmount();
  render(Sheets, { id: 'u2', pilot: 'b' });
  expect(await names()).toEqual(['Jonas Ferreyra']);
});
