import { expect, it } from 'vitest';
import { categoryStandings } from '../lib/fixtures/contest';
import type { Category } from './types';
import { columns, cutOf, flownOf, overallRanks, pilots, teams, underWay } from './overall';

it('gives each programme a column before the total', () => {
  expect(columns(categoryStandings().category).map(({ name }) => name)).toEqual([
    'Known',
    'Free',
    'Unknown',
    'Total',
  ]);
});

it('links each programme score to its sheet and leaves open what is not flown', () => {
  const [group] = pilots(categoryStandings());
  expect(group?.rows[0]?.numbers).toEqual([
    { text: '1184.57', href: '/flights/p1f0' },
    { text: '1184.57', href: '/flights/p2f0' },
    { text: '' },
    { text: '2369.14' },
  ]);
});

it('shows what a programme adds to the total, which a percentage may be', () => {
  const category = { ...categoryStandings().category, combine: 'sum-percent' as const };
  const [group] = pilots(categoryStandings({ category }));
  expect(group?.rows[0]?.numbers[0]).toEqual({ text: '81.69', href: '/flights/p1f0' });
});

it('names a club once where its name is in the team’s', () => {
  const [one] = categoryStandings().overall;
  if (!one) throw new Error('the fixture has one');
  const detail = (team: string) =>
    pilots(categoryStandings({ overall: [{ ...one, team }] }))[0]?.rows[0]?.detail;
  expect([detail('North'), detail(one.pilot.affiliation), detail(`${one.pilot.affiliation} 2`)]).toEqual([
    'Lindholm Flying Club · Starling\u00a0200 · team North',
    'Lindholm Flying Club · Starling\u00a0200',
    'Lindholm Flying Club 2 · Starling\u00a0200',
  ]);
});

it('stands the unranked where the total belongs', () => {
  const [group] = pilots(categoryStandings());
  expect(group?.rows.map((row) => row.rank)).toEqual([1, 2, 3, null, 4, 5, 6]);
});

it('keeps whoever a cut left behind below those who went on, whatever the total', () => {
  const [first, second] = categoryStandings().overall;
  if (!first || !second) throw new Error('the fixture has two');
  const overall = [
    { ...first, rank: 2, total: 3000 },
    { ...second, rank: 1, total: 2000 },
  ];
  const [group] = pilots(categoryStandings({ overall }));
  expect(group?.rows.map((row) => row.rank)).toEqual([1, 2]);
});

it('names the members that count for a team', () => {
  const [group] = teams(categoryStandings());
  expect(group?.rows.map((row) => [row.rank, row.name, row.detail])).toEqual([
    [1, 'North', 'Mara Quist, Ines Odhiambo'],
    [2, 'South', 'Jonas Ferreyra, Tomas Hale'],
  ]);
  expect(teams(categoryStandings({ teams: [] }))).toEqual([]);
});

it('is under way while some flights of a programme that counts are in', () => {
  const { category } = categoryStandings();
  const flown = (n: number) => ({
    ...category,
    programmes: category.programmes.map((one) => ({ ...one, flown: n })),
  });
  expect([0, 7, 12].map((n) => underWay(flown(n)))).toEqual([false, true, false]);
});

it('adds up the flights of all programmes', () => {
  expect(flownOf(categoryStandings().category)).toEqual({ in: 19, all: 36 });
});

it('leaves the strip out where no rank is known to be sure', () => {
  const { overall } = categoryStandings();
  expect(overallRanks(overall)).toBe(6);
  expect(overallRanks(overall.filter((one) => !one.ranked))).toBe(0);
});

it('draws the cut that was made last, else the one to come', () => {
  const one = (name: string, cut: number, flown: number): Category['programmes'][number] => ({
    ...(categoryStandings().category.programmes[0] as Category['programmes'][number]),
    name,
    cut,
    flown,
    flights: 12,
  });
  const of = (...programmes: Category['programmes']) =>
    cutOf({ ...categoryStandings().category, programmes })?.name;
  expect(of(one('Known', 10, 12), one('Free', 5, 3))).toBe('Known');
  expect(of(one('Known', 10, 12), one('Free', 5, 12))).toBe('Free');
  expect(of(one('Known', 10, 0), one('Free', 5, 0))).toBe('Known');
  expect(of(one('Known', 0, 12))).toBeUndefined();
});
