/** The table of a flight as the chief judge reads it: figures down, seats across. */

import { rulingFamily } from '../records/scale';
import type { Attempt, Ruling, Sheet } from '../records/state';

/** Why a cell speaks; most say nothing. */
export type Mark = '' | 'missing' | 'conflict' | 'far' | 'zero';

interface TableCell {
  judge: string;
  grade: string;
  mark: Mark;
}

/** What an item needs a word on. */
export type Question = 'hard-zero' | 'perception-zero' | 'zero' | 'grade' | 'ruling';

export interface Row {
  item: number;
  cells: TableCell[];
  /** Those that no ruling has answered yet. */
  questions: Question[];
  rulings: Ruling[];
  /** How many seats gave what is not a plain number. */
  counts: { hard: number; perception: number; zero: number; entered: number };
}

/** So many points from the middle of the others, a grade is shown as far from them. */
const farBy = 2;

/** The seats that grade the attempt: those of the panel that are there. */
const present = ({ sheets }: Attempt): Sheet[] =>
  sheets.filter(({ off_panel, absent }) => !off_panel && !absent);

/** The rows of an attempt; `landed` says that nothing is still to be flown. */
export function rowsOf(attempt: Attempt, landed: boolean): Row[] {
  const seats = attempt.sheets.filter(({ off_panel }) => !off_panel);
  const items = Math.max(0, ...seats.map(({ cells }) => cells.length));
  return Array.from({ length: items }, (_, i) => rowOf(attempt, seats, i, landed));
}

function rowOf(attempt: Attempt, seats: readonly Sheet[], i: number, landed: boolean): Row {
  const given = present(attempt).flatMap(({ cells }) => cells[i]?.grade || []);
  const cells = seats.map((sheet) => ({
    judge: sheet.judge,
    grade: sheet.cells[i]?.grade ?? '',
    mark: markOf(sheet, i, given, landed),
  }));
  const rulings = attempt.rulings.filter(({ item }) => item === i + 1);
  const counts = countsOf(given);
  const whole = given.length > 0 && given.length === present(attempt).length;
  return { item: i + 1, cells, rulings, counts, questions: questionsOf(given, counts, rulings, whole) };
}

function countsOf(given: readonly string[]): Row['counts'] {
  const count = (grade: string) => given.filter((one) => one === grade).length;
  return { hard: count('HZ'), perception: count('PZ'), zero: count('0.0'), entered: given.length };
}

function markOf(sheet: Sheet, i: number, given: readonly string[], landed: boolean): Mark {
  const cell = sheet.cells[i];
  if (!cell || sheet.absent) return '';
  if (cell.conflict) return 'conflict';
  if (cell.grade === '') {
    const passed = sheet.cells.some(({ item, grade }) => item > i + 1 && grade !== '');
    return passed || landed ? 'missing' : '';
  }
  if (cell.grade === 'HZ' || cell.grade === 'PZ') return 'zero';
  return isFar(cell.grade, given) ? 'far' : '';
}

/** A number that is far from the middle of at least two others. */
function isFar(grade: string, given: readonly string[]): boolean {
  const own = Number(grade);
  const others = given.map(Number).filter((value) => !Number.isNaN(value));
  others.splice(others.indexOf(own), 1);
  return !Number.isNaN(own) && others.length >= 2 && Math.abs(own - middle(others)) >= farBy;
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return ((sorted[Math.ceil(half) - 1] ?? 0) + (sorted[Math.floor(half)] ?? 0)) / 2;
}

function questionsOf(
  given: readonly string[],
  { hard, perception, zero }: Row['counts'],
  rulings: readonly Ruling[],
  whole: boolean,
): Question[] {
  const ruled = (family: string) => rulings.some((one) => rulingFamily(one.ruling) === family);
  const graded = given.filter((grade) => grade !== 'A').length;
  const split = (count: number) => count > 0 && count < graded;
  const asked: [Question, boolean][] = [
    ['ruling', rulings.some(({ conflict }) => conflict)],
    ['hard-zero', split(hard) && !ruled('hard-zero')],
    [
      'perception-zero',
      split(perception) && !ruled('perception-zero') && !says(rulings, 'hard-zero-confirmed'),
    ],
    ['zero', split(zero) && rulings.length === 0 && hard === 0 && perception === 0],
    ['grade', whole && given.every((grade) => isGap(grade, rulings)) && !ruled('grade')],
  ];
  return asked.flatMap(([question, is]) => (is ? [question] : []));
}

const says = (rulings: readonly Ruling[], ruling: string) => rulings.some((one) => one.ruling === ruling);

/** Counts nothing, so that where all do the item has no score. */
function isGap(grade: string, rulings: readonly Ruling[]): boolean {
  if (grade === 'HZ') return says(rulings, 'hard-zero-overruled');
  if (grade === 'PZ') return says(rulings, 'perception-zero-overruled');
  return grade === 'A';
}
