/** Plain sentences for the grades of a figure that did not count as given. */

import { m } from '../lib/messages';
import { fixed, percentOf } from '../lib/numbers';
import type { Cell } from './types';

type Sentence = (cells: Cell[], panel: number | undefined) => string;

/** A sentence that names the seats and the value they take instead. */
const taking =
  (say: (seats: number[], value: string) => string): Sentence =>
  (cells) =>
    say(seatsOf(cells), fixed(cells[0]?.used, 1));

/** A sentence that names the seats alone. */
const naming =
  (say: (seats: number[]) => string): Sentence =>
  (cells) =>
    say(seatsOf(cells));

/**
 * The reasons that the results carry, in the order in which they are told. An
 * absent seat is told once for the whole sheet, not in every row.
 */
const sentences: Record<string, Sentence> = {
  'hard zero confirmed': () => m.reason.hardConfirmed,
  'grade set': (cells) => m.reason.gradeSet(fixed(cells[0]?.used, 1)),
  'hard zero overruled': taking(m.reason.hardOverruled),
  'hard zero not upheld': taking(m.reason.hardNotUpheld),
  'zero by majority': naming(m.reason.zeroByMajority),
  'perception zero confirmed': naming(m.reason.perceptionConfirmed),
  'perception zero overruled': taking(m.reason.perceptionOverruled),
  'perception zero not upheld': taking(m.reason.perceptionNotUpheld),
  'not seen': taking(m.reason.notSeen),
  trimmed: (cells) =>
    m.reason.trimmed([...cells].sort(byUsed).map(({ seat, grade }) => ({ seat, grade: gradeText(grade) }))),
  outlier: (cells, panel) => cells.map((cell) => outlier(cell, panel)).join(' '),
};

/** The sentences for one figure whose panel's value is `panel`. */
export function explain(cells: Cell[], panel: number | undefined): string[] {
  return Object.entries(sentences).flatMap(([reason, say]) => {
    const those = cells.filter((cell) => cell.reason === reason);
    return those.length > 0 ? [say(those, panel)] : [];
  });
}

/** The seats that a sentence speaks of one by one, whose dots are numbered. */
export function named(cells: Cell[]): number[] {
  return seatsOf(
    cells.filter(
      (cell) => cell.reason === 'outlier' || cell.reason.includes('zero') || cell.reason === 'trimmed',
    ),
  );
}

/** The seats that were absent for the whole flight: absent in every row. */
export function absentSeats(rows: Cell[][]): number[] {
  const [first = []] = rows;
  return seatsOf(first).filter((seat) =>
    rows.every((cells) => cells.some((cell) => cell.seat === seat && cell.reason === 'seat absent')),
  );
}

/** A grade as it is spoken of: `7.5`, or its code's words. */
export function gradeText(grade: string): string {
  return Object.hasOwn(m.grade, grade) ? m.grade[grade as keyof typeof m.grade] : grade;
}

function outlier(cell: Cell, panel: number | undefined): string {
  return m.reason.outlier(cell.seat, gradeText(cell.grade), percentOf(cell.weight ?? 0), fixed(panel, 1));
}

function seatsOf(cells: Cell[]): number[] {
  return cells.map((cell) => cell.seat);
}

/** A trimmed cell's used value is its grade, a perception zero's is 0. */
function byUsed(a: Cell, b: Cell): number {
  return (a.used ?? 0) - (b.used ?? 0) || a.seat - b.seat;
}
