import { expect, it } from 'vitest';
import { clock, day, days, moment } from './times';

// Common practice for a span of days, written from memory.
it.each([
  ['2026-06-12', '2026-06-14', '12–14 June 2026'],
  ['2026-06-30', '2026-07-02', '30 June – 2 July 2026'],
  ['2026-06-12', '2026-06-12', '12 June 2026'],
  ['2026-06-12', undefined, '12 June 2026'],
  ['2026-12-30', '2027-01-02', '30 December 2026 – 2 January 2027'],
  [undefined, '2026-06-12', ''],
  ['soon', undefined, ''],
])('days %s to %s', (first, last, text) => {
  expect(days(first, last)).toBe(text);
});

it('hour, day and moment are those of this place', () => {
  const at = new Date(2026, 5, 2, 9, 5); // June; as the constructor counts
  expect(clock(at)).toBe('09:05');
  expect(day(at)).toBe('2 June 2026');
  expect(moment(at)).toBe('2 June 2026, 09:05');
});
