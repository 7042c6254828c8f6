import { expect, it } from 'vitest';
import { categoryStandings } from '../lib/fixtures/contest';
import { columns, flownOf, overallRanks, pilots, teams } from './overall';

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

it('adds up the flights of all programmes', () => {
  expect(flownOf(categoryStandings().category)).toEqual({ in: 19, all: 36 });
});

it('leaves the strip out where no rank is known to be sure', () => {
  const { overall } = categoryStandings();
  expect(overallRanks(overall)).toBe(6);
  expect(overallRanks(overall.filter((one) => !one.ranked))).toBe(0);
});
