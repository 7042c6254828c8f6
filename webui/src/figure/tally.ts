/** What stands against an item, and where in it. */

import type { Answer } from './check';
import type { Complaint } from './types';
import { spot } from './places';

/** How many errors and remarks an item carries. */
export function tally(key: string, answer: Answer | undefined): { errors: number; remarks: number } {
  const findings = answer?.findings.get(key) ?? [];
  const inMoves = answer?.items.get(key)?.errors.length ?? 0;
  const remarks = findings.filter(({ level }) => level === 'remark').length;
  return { errors: inMoves + findings.length - remarks, remarks };
}

/** The errors of an item at one of its moves; those that name no move for -1. */
export function errorsAt(errors: readonly Complaint[], move: number): string[] {
  return errors.filter(({ place }) => (spot(place).move ?? -1) === move).map(({ text }) => text);
}
