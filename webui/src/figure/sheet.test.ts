import { describe, expect, it } from 'vitest';
import { alike, emptySheet, kOf, newFigure, readK, sumOfK, taken, written, type Item } from './sheet';
import { slips } from './slips';
import type { WireSheet } from './types';

const figure = (change: Partial<Item>): Item => ({ ...newFigure(), ...change });
const numbers = (...pairs: [number: string, k: string][]) => pairs.map(([number, k]) => ({ number, k }));

describe('K', () => {
  it('is read with a point or a comma, and with at most one decimal', () => {
    expect(['14', '8.5', '8,5', ' 10 '].map(readK)).toEqual([14, 8.5, 8.5, 10]);
    expect(['', '0', '-3', '8.55', 'fourteen', '1e3'].map(readK)).toEqual(Array(6).fill(undefined));
  });

  it('is summed without the errors of binary fractions', () => {
    expect(sumOfK(numbers(['1.1.1.1', '0.1'], ['9.1.1.1', '0.2']))).toBe(0.3);
    expect(sumOfK(numbers(['1.1.1.1', '3'], ['9.1.1.1', '']))).toBeUndefined();
    expect(sumOfK([])).toBeUndefined();
  });

  it('of a figure is the one typed, else the sum of its numbers', () => {
    const two = numbers(['1.1.1.1', '10'], ['9.1.1.1', '4'], ['', '']);
    expect(kOf(figure({ numbers: two }))).toBe(14);
    expect(kOf(figure({ numbers: two, k: '15' }))).toBe(15);
    expect(kOf(figure({ numbers: two, k: '15x' }))).toBeUndefined();
  });
});

describe('a sheet', () => {
  const wire: WireSheet = {
    items: [
      {
        kind: 'figure',
        k: 14,
        elements: ['8.5.2.1', '9.1.4.2'],
        element_k: [10, 4],
        class: 'flick',
        words: { call: 'now' },
        moves: [{ arc: 225 }, { line: [{ kind: 'roll', turns: 0.5 }] }, { arc: 45 }],
        entry: { inverted: true },
      },
      { kind: 'overall', k: 10.5, name: 'Positioning' },
    ],
    entry: { inverted: true },
  };

  it('goes to the service as it came from it', () => {
    expect(written(taken(wire))).toEqual(wire);
  });

  it('leaves out what is empty', () => {
    expect(written({ items: [newFigure()], inverted: false })).toEqual({
      items: [{ kind: 'figure' }],
      entry: { inverted: false },
    });
  });

  it('is alike to one that was typed the same, whatever its keys are', () => {
    expect(alike(taken(wire), taken(wire))).toBe(true);
    expect(alike(taken(wire), emptySheet())).toBe(false);
    const half = {
      items: [figure({ numbers: numbers(['1.1.1.1', '3'], ['9.1.1.1', '']) })],
      inverted: false,
    };
    const without = {
      items: [figure({ numbers: numbers(['1.1.1.1', ''], ['9.1.1.1', '']) })],
      inverted: false,
    };
    expect(alike(half, without)).toBe(false);
  });
});

describe('a slip', () => {
  const fields = (change: Partial<Item>) => slips(figure(change)).map(({ field }) => field);

  it('is a K that is none', () => {
    expect(fields({ k: '1.25' })).toEqual(['k']);
    expect(fields({ numbers: numbers(['1.1.1.1', 'x']) })).toEqual(['element_k']);
  });

  it('is a K beside no number, and K of some numbers only', () => {
    expect(fields({ numbers: numbers(['', '4']) })).toEqual(['element_k']);
    expect(fields({ numbers: numbers(['1.1.1.1', '4'], ['9.1.1.1', '']) })).toEqual(['element_k']);
  });

  it('is not what is still empty', () => {
    expect(fields({})).toEqual([]);
    expect(fields({ numbers: numbers(['1.1.1.1', '4'], ['', '']) })).toEqual([]);
  });
});
