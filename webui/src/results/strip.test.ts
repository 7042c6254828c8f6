import { describe, expect, it } from 'vitest';
import { labels, middle, span, ticks } from './strip';

describe('the strip of ranks', () => {
  it('gives each rank an equal share of the width', () => {
    expect([1, 2, 3, 4].map((rank) => middle(rank, 4))).toEqual([12.5, 37.5, 62.5, 87.5]);
    expect(middle(1, 1)).toBe(50);
  });

  it.each([
    [1, 1, 4, 0, 25],
    [2, 3, 4, 25, 50],
    [1, 4, 4, 0, 100],
    [4, 9, 4, 75, 25], // never past the end
  ])('spans %i to %i of %i', (low, high, ranks, x, width) => {
    expect(span(low, high, ranks)).toEqual({ x, width });
  });

  it('ticks every rank of a small field and round ranks of a large one', () => {
    expect(ticks(3)).toEqual([1, 2, 3]);
    expect(ticks(23)).toEqual([1, 5, 10, 15, 20]);
    expect(ticks(0)).toEqual([]);
  });

  it.each([
    [0, []],
    [1, [1]],
    [6, [1, 2, 3, 4, 5, 6]],
    [11, [1, 5, 11]],
    [14, [1, 5, 10, 14]],
    [41, [1, 10, 20, 30, 41]],
    [500, [1, 100, 200, 300, 400, 500]],
  ])('labels %i ranks', (ranks, want) => expect(labels(ranks)).toEqual(want));
});
