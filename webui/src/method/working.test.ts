import { expect, it } from 'vitest';
import { kindOf, lineOf, meanOf, mostTold, movedOf, type Working } from './working';

const base = {
  decimals: 2,
  factors: 3,
  options: { trim: 1, discard: 1.645, outlier: 6, lean: 2 },
  method: { name: 'consensus', fallback: '', seats: 2 },
  seats: [{ share: 0.25 }, { share: 0.75 }],
} as unknown as Working;
const row = (how: string, value: number, grades: object[]) =>
  ({
    number: 1,
    name: '',
    k: 10,
    how,
    value,
    points: 10 * value,
    grades,
  }) as unknown as Working['items'][number];

it('works a weighted value out with what is shown', () => {
  const item = row('weighted', 7.5, [
    { used: 6, counts: true, trust: 1 },
    { used: 8, counts: true, trust: 1 },
  ]);
  expect(lineOf(item, base)).toBe(
    '(0.250 × 1.000 × 6.000 + 0.750 × 1.000 × 8.000) / (0.250 × 1.000 + 0.750 × 1.000) = 7.50',
  );
  expect(kindOf({ ...base, items: [item] })).toBe('weighted');
});

it('works a mean out of the grades that count', () => {
  const item = row('mean', 7.5, [
    { used: 7, counts: true },
    { used: 0, counts: false },
    { used: 8, counts: true },
  ]);
  expect(lineOf(item, base)).toBe('(7.0 + 8.0) / 2 = 7.50');
  expect(mostTold({ ...base, items: [row('mean', 7, [{ used: 7, counts: true }]), item] })).toBe(1);
});

// From the table of totals in docs/method.md: the first flight's seats 1 and 4.
it('moves totals', () => {
  const working = {
    ...base,
    level: { mean: 71.25, spread: 11.859 },
    seats: [
      { total: 50, mean: 70, deviation: 15.811, moved: 56.25, graded: true, discarded: false },
      { total: 70, mean: 70, deviation: 0, moved: 71.25, graded: true, discarded: false },
      { total: 70, mean: 70, deviation: 0, moved: 90, graded: true, discarded: true },
    ],
    sum: 63.75,
  } as unknown as Working;
  expect(working.seats.map((seat) => movedOf(seat, working)).slice(0, 2)).toEqual([
    '71.250 + (50.000 − 70.000) × 11.859 / 15.811 = 56.25',
    '71.250 + (70.000 − 70.000) = 71.25',
  ]);
  expect(meanOf(working)).toBe('(56.25 + 71.25) / 2 = 63.7500');
});
