import { describe, expect, it } from 'vitest';
import { flight, standings } from '../lib/fixtures/contest';
import { detail, flightsIn, groups, note, ranks } from './standings';

describe('groups', () => {
  it('puts every flight under what it waits for', () => {
    const got = groups(standings().flights).map(({ key, rows }) => [key, rows.length]);
    expect(got).toEqual([
      ['placed', 7],
      ['waiting', 3],
      ['scheduled', 1],
      ['out', 1],
    ]);
  });

  it('orders placed flights by rank, whatever the running order', () => {
    const [placed] = groups([...standings().flights].reverse());
    expect(placed?.rows.map((row) => row.rank)).toEqual([1, 2, 3, 4, 5, 6, 7]);
  });

  it('stands a pilot who holds no rank where the score belongs', () => {
    const unranked = flight(8, { id: 'x', state: 'flown', ranked: false, score: 1150 });
    const [placed] = groups([flight(3), unranked, flight(2)]);
    expect(placed?.rows.map((row) => [row.key, row.rank, row.unranked])).toEqual([
      ['f3', 3, ''],
      ['x', null, 'not ranked'],
      ['f4', 4, ''],
    ]);
  });

  it('leaves the order it was given as it was', () => {
    const flights = [flight(1), flight(0)];
    groups(flights);
    expect(flights.map(({ id }) => id)).toEqual(['f2', 'f1']);
  });

  it('shows two decimals, and nothing for a flight without a score', () => {
    const [placed, waiting] = groups([flight(4), flight(7, { state: 'flying' })]);
    expect(placed?.rows[0]?.numbers.map(({ text }) => text)).toEqual(['1102.40', '76.03']);
    expect(waiting?.rows[0]?.numbers.map(({ text }) => text)).toEqual(['', '']);
  });
});

it('counts the flights that are in among those meant to score', () => {
  expect(flightsIn(standings().flights)).toEqual({ in: 7, all: 11 });
  expect(flightsIn([])).toEqual({ in: 0, all: 0 });
});

it('makes the strip as wide as the worst rank that may come', () => {
  expect(ranks(standings().flights)).toBe(7);
  expect(ranks([flight(8)])).toBe(0);
});

describe('note', () => {
  it.each([
    ['flown', {}, ''],
    ['flying', {}, 'in the air'],
    ['scheduled', {}, 'flight 1'],
    ['incomplete', { missing: { grades: 1, seats: [4] } }, '1 grade missing from seat 4'],
    ['incomplete', { missing: { grades: 3, seats: [2, 5, 6] } }, '3 grades missing from seats 2, 5 and 6'],
    ['incomplete', {}, 'grades missing'],
    ['unresolved', { unresolved: ['Figure 4'] }, 'Figure 4 needs a decision by the chief judge'],
    ['disqualified', {}, 'disqualified'],
  ] as const)('of a flight that is %s', (state, more, want) => {
    const change = { ...more, state } as Parameters<typeof flight>[1];
    expect(note(flight(0, change))).toBe(want);
  });
});

it('leaves out what is not known of a pilot', () => {
  expect(detail({ affiliation: '', aircraft: 'Merlin 6' })).toBe('Merlin\u00a06');
});
