import { expect, it } from 'vitest';
import { dots, height, place } from './gradeline';

it('places a value and keeps it on the line', () => {
  expect([0, 7.5, 10, -1, 11].map(place)).toEqual([0, 75, 100, 0, 100]);
});

it('stacks equal grades, the most trusted lowest', () => {
  const all = dots([
    { seat: 1, grade: '8.0', weight: 0.9 },
    { seat: 2, grade: '8.0', weight: 1 },
    { seat: 3, grade: '7.5' },
    { seat: 4, grade: '8.0', weight: 0.9 },
  ]);
  expect(all.filter((dot) => dot.x === 80).map((dot) => [dot.seat, dot.level])).toEqual([
    [2, 0],
    [1, 1],
    [4, 2],
  ]);
  expect(height(all)).toBe(3);
});

it('marks zeros by kind, on one stack with a plain 0', () => {
  const all = dots([
    { seat: 1, grade: 'HZ', weight: 0 },
    { seat: 2, grade: 'PZ' },
    { seat: 3, grade: '0.0' },
  ]);
  expect(all.map((dot) => [dot.seat, dot.mark, dot.level])).toEqual([
    [2, 'perception', 0],
    [3, 'grade', 1],
    [1, 'hard', 2],
  ]);
});

it('draws no dot where no grade was given', () => {
  expect(
    dots([
      { seat: 1, grade: 'A' },
      { seat: 2, grade: '' },
    ]),
  ).toEqual([]);
  expect(height([])).toBe(1);
});
