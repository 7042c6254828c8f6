import { expect, it } from 'vitest';
import { isNumber } from '../records/scale';
import type { LineRecord } from '../records/record';
import { Bounce, keyParts, rows } from './keys';
import { differing } from './notices';

it('has every half point once, as records write it, the best first', () => {
  const all = rows.flat();
  expect(all).toHaveLength(21);
  expect(new Set(all).size).toBe(21);
  expect(all.every(isNumber)).toBe(true);
  expect([all[0], all.at(-1)]).toEqual(['10.0', '0.0']);
  expect(rows.map((row) => row.length)).toEqual([7, 7, 7]);
});

it('shows the half smaller, and no nought behind a whole number', () => {
  expect(keyParts('9.5')).toEqual(['9', '.5']);
  expect(keyParts('10.0')).toEqual(['10', '']);
});

it('takes the bounce of a glove for no tap', () => {
  const bounce = new Bounce();
  const taps: [string, number][] = [
    ['7.5', 1000],
    ['7.5', 1120],
    ['8.0', 1200],
    ['7.5', 1300],
    ['7.5', 1700],
  ];
  expect(taps.map(([key, at]) => bounce.isNew(key, at))).toEqual([true, false, true, true, true]);
});

it('marks the grades that a conflict is between, and none of another cell', () => {
  const records = [
    { id: 'a', grade: '7.0' },
    { id: 'b', grade: 'HZ' },
    { id: 'c', grade: '7.0' },
    { id: 'd', grade: '3.0' },
  ] as LineRecord[];
  const cell = { item: 1, grade: '', remark: '', conflict: true, heads: ['a', 'b', 'c'], history: [] };
  expect(differing(records, cell)).toEqual(['7.0', 'HZ']);
  expect(differing(records, { ...cell, conflict: false })).toEqual([]);
  expect(differing(records, undefined)).toEqual([]);
});
