import { expect, it } from 'vitest';
import { csv } from '../lib/csv';
import { categoryStandings, sheet, standings } from '../lib/fixtures/contest';
import { savedOverall, savedSheet, savedStandings } from './saved';

it('a standing is saved with a row for each flight, those with a score first', () => {
  const [head, ...rows] = savedStandings(standings());
  expect(rows.length).toBe(standings().flights.length);
  expect(new Set(rows.map((row) => row.length))).toEqual(new Set([head?.length]));
  expect(rows[0]?.slice(0, 9)).toEqual([
    1,
    'yes',
    'Mara Quist',
    'Lindholm Flying Club',
    'Starling 200',
    1,
    'flown',
    1184.57,
    81.69,
  ]);
});

it('a category is saved with the score and the percent of each programme', () => {
  const shown = categoryStandings();
  const [head, ...rows] = savedOverall(shown);
  expect(head?.length).toBe(6 + 2 * shown.category.programmes.length + 5);
  expect(rows.length).toBe(shown.overall.length);
});

it('a sheet is saved with every grade, codes as they are', () => {
  const { items, seats } = sheet();
  const [head, ...rows] = savedSheet(sheet());
  expect(rows.length).toBe(items.length);
  expect(head?.length).toBe(4 + 4 * seats.length + 4);
  expect(rows[0]?.[4]).toBe(8);
  expect(csv(rows)).toContain(',HZ,');
});
