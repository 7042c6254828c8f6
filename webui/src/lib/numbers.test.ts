import { expect, it } from 'vitest';
import { decimalsOf, fixed, percentOf, short, signed } from './numbers';

it.each([
  [7.3, 2, '7.30'],
  [-4.25, 1, '−4.3'],
  [-0.04, 1, '0.0'],
  [0, 1, '0.0'],
  [undefined, 1, ''],
])('fixed %s', (value, decimals, text) => expect(fixed(value, decimals)).toBe(text));

it.each([
  [4.6, '+4.6'],
  [-4.6, '−4.6'],
  [0.04, '0.0'],
  [-0.04, '0.0'],
  [undefined, ''],
])('signed %s', (value, text) => expect(signed(value, 1)).toBe(text));

it('gives every K as many decimals as one of them needs', () => {
  expect([decimalsOf([10, 7]), decimalsOf([10, 7.5]), decimalsOf([])]).toEqual([0, 1, 0]);
  expect([short(10), short(7.5)]).toEqual(['10', '7.5']);
});

it.each([
  [0, 0],
  [0.0001, 1],
  [0.126, 13],
  [0.9999, 99],
  [1, 100],
])('percentOf %s', (share, text) => expect(percentOf(share)).toBe(text));
