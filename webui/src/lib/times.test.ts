import { expect, it } from 'vitest';
import { days } from './times';

// Common practice for a span of days, written from memory; the dash's spaces are the browser's own.
it.each([
  ['2026-06-12', '2026-06-14', '12–14 June 2026'],
  ['2026-06-30', '2026-07-02', '30 June–2 July 2026'],
  ['2026-06-12', '2026-06-12', '12 June 2026'],
  ['2026-06-12', undefined, '12 June 2026'],
  [undefined, '2026-06-12', ''],
  ['soon', undefined, ''],
])('days %s to %s', (first, last, text) => {
  expect(days(first, last).replace(/\s*–\s*/, '–')).toBe(text);
});
