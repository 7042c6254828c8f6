import { expect, it } from 'vitest';
import { isPositioning, offered, partsOf, said, tally, withPlace, withWord } from './remarks';

it('adds a word at a tap and takes it away at the next', () => {
  const one = withWord('', 'flat');
  const two = withWord(one, 'late');
  expect(two).toBe('flat, late');
  expect(withWord(two, 'flat')).toBe('late');
  expect(partsOf(' flat ,, my own words ')).toEqual(['flat', 'my own words']);
});

it('says a place, says it twice, and no more', () => {
  const once = withPlace('flat', 'left');
  const twice = withPlace(once, 'left');
  expect([once, twice, withPlace(twice, 'left')]).toEqual(['flat, L', 'flat, LL', 'flat']);
  expect([said('', 'left'), said(once, 'left'), said(twice, 'left'), said(twice, 'far')]).toEqual([
    0, 1, 2, 0,
  ]);
});

it('offers ten less half a point a letter', () => {
  expect(tally(['L, flat', '', 'FF, R', 'Left'])).toBe(4);
  // 10 - 4/2; the rule is that of the design, no further source
  expect(offered(4)).toBe('8.0');
  expect(offered(3)).toBe('8.5');
  expect(offered(50)).toBe('0.0');
});

it('knows the mark for the position', () => {
  expect(isPositioning('Positioning')).toBe(true);
  expect(isPositioning('Harmony')).toBe(false);
});
