import { expect, it } from 'vitest';
import type { Attempt, Ruling, Sheet } from '../records/state';
import { rowsOf, type Row } from './table';

/** A seat's grades; `?` is a contradiction. */
function sheet(judge: string, grades: string[], more: Partial<Sheet> = {}): Sheet {
  const cells = grades.map((grade, i) => ({
    item: i + 1,
    grade: grade === '?' ? '' : grade,
    conflict: grade === '?',
    remark: '',
    heads: [],
    history: [],
  }));
  const signature = { state: 'unsigned' as const, signs: [], waits_for: [] };
  return {
    ...{ judge, off_panel: false, by: '', absent: false, absent_conflict: false, absent_heads: [] },
    ...{ cells, signature, reopens: [], ...more },
  };
}

const attempt = (seats: string[][], rulings: Ruling[] = []): Attempt => ({
  attempt: 1,
  sheets: seats.map((grades, i) => sheet(`J${i + 1}`, grades)),
  rulings,
  penalties: [],
});

const ruled = (ruling: string, more: Partial<Ruling> = {}): Ruling => ({
  ...{ item: 1, ruling, grade: '', conflict: false, heads: [] },
  ...more,
});

/** The first figure of an attempt. */
function first(given: string[], rulings: Ruling[] = []): Row {
  const rows = rowsOf(
    attempt(
      given.map((grade) => [grade]),
      rulings,
    ),
    false,
  );
  return rows[0] as Row;
}

it('asks about zeros that not all have given, of any kind', () => {
  expect(first(['HZ', '7.0', '7.5']).questions).toEqual(['hard-zero']);
  expect(first(['HZ', 'HZ', 'HZ']).questions).toEqual([]);
  expect(first(['PZ', '7.0', '7.5']).questions).toEqual(['perception-zero']);
  expect(first(['0.0', '7.0', '7.5']).questions).toEqual(['zero']);
  expect(first(['HZ', 'PZ', '7.5']).questions).toEqual(['hard-zero', 'perception-zero']);
});

it('does not take a figure that was not seen for a vote', () => {
  expect(first(['HZ', 'A', 'HZ']).questions).toEqual([]);
  expect(first(['HZ', '', '']).questions).toEqual([]);
});

it('asks no more where it was ruled, and again where rulings contradict', () => {
  expect(first(['HZ', '7.0'], [ruled('hard-zero-overruled')]).questions).toEqual([]);
  expect(first(['PZ', 'HZ', '7.0'], [ruled('hard-zero-confirmed')]).questions).toEqual([]);
  expect(first(['HZ', '7.0'], [ruled('hard-zero', { conflict: true })]).questions).toContain('ruling');
});

it('asks for a grade where no seat has one that counts', () => {
  expect(first(['A', 'A', 'A']).questions).toEqual(['grade']);
  expect(first(['A', 'A', '']).questions).toEqual([]);
  expect(first(['HZ', 'A', 'A'], [ruled('hard-zero-overruled')]).questions).toEqual(['grade']);
  expect(first(['A', 'A', 'A'], [ruled('grade-set', { grade: '6.5' })]).questions).toEqual([]);
});

it('marks what is far from the middle of the others, a zero and a contradiction', () => {
  const marks = (given: string[]) => first(given).cells.map(({ mark }) => mark);
  expect(marks(['5.0', '7.0', '7.0'])).toEqual(['far', '', '']);
  expect(marks(['5.5', '7.0', '7.0'])).toEqual(['', '', '']);
  expect(marks(['5.0', '7.0', 'HZ'])).toEqual(['', '', 'zero']);
  expect(marks(['?', '7.0', '7.0'])).toEqual(['conflict', '', '']);
});

it('calls a cell missing when its seat has gone past it, or the flight is down', () => {
  const seats = [
    ['', '7.0', ''],
    ['7.0', '', ''],
  ];
  const marks = (landed: boolean) =>
    rowsOf(attempt(seats), landed).map(({ cells }) => cells.map(({ mark }) => mark));
  expect(marks(false)).toEqual([
    ['missing', ''],
    ['', ''],
    ['', ''],
  ]);
  expect(marks(true)).toEqual([
    ['missing', ''],
    ['', 'missing'],
    ['missing', 'missing'],
  ]);
});

it('expects nothing of a seat that is absent', () => {
  const given = attempt([['7.0'], ['7.0']]);
  given.sheets.push(sheet('J3', [''], { absent: true }), sheet('X', ['HZ'], { off_panel: true }));
  const [row] = rowsOf(given, true);
  expect(row?.cells.map(({ mark }) => mark)).toEqual(['', '', '']);
  expect(row?.questions).toEqual([]);
});
