/** Where a figure's grades lie on the line from 0 to 10. */

import type { Cell } from './types';

/** How a dot is drawn: a plain grade, a hard zero, a perception zero. */
export type Mark = 'grade' | 'hard' | 'perception';

/** One seat's grade of one figure, with how far it was trusted where the method says so. */
export type Given = Pick<Cell, 'seat' | 'grade' | 'weight'>;

/** One dot: `x` in per cent of the line, `level` counting up from the line. */
export interface Dot {
  seat: number;
  mark: Mark;
  x: number;
  level: number;
  trust: number;
}

/** A value's place in per cent of the line. */
export function place(value: number): number {
  return Math.min(Math.max(value, 0), 10) * 10;
}

/** The dots of a figure; equal grades stand on each other, the most trusted lowest. */
export function dots(given: Given[]): Dot[] {
  const levels = new Map<number, number>();
  const byTrust = [...given].sort((a, b) => trust(b) - trust(a) || a.seat - b.seat);
  return byTrust.flatMap((one) => {
    const value = valueOf(one.grade);
    if (value === undefined) return [];
    const level = levels.get(value) ?? 0;
    levels.set(value, level + 1);
    return { seat: one.seat, mark: markOf(one.grade), x: place(value), level, trust: trust(one) };
  });
}

/** How high a stack stands, at least 1. */
export function height(all: Dot[]): number {
  return Math.max(1, ...all.map((dot) => dot.level + 1));
}

function trust(one: Given): number {
  return Math.min(Math.max(one.weight ?? 1, 0), 1);
}

function markOf(grade: string): Mark {
  return grade === 'HZ' ? 'hard' : grade === 'PZ' ? 'perception' : 'grade';
}

/** Nothing for a gap: not seen, not entered. */
function valueOf(grade: string): number | undefined {
  if (grade === 'HZ' || grade === 'PZ') return 0;
  return /^\d/.test(grade) ? Number(grade) : undefined;
}
