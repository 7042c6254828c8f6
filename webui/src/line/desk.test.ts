import { expect, it } from 'vitest';
import { comingDesks, nextEmpty, presentDesk, type Desk } from './desk';
import type { LineFlight } from './plan';
import type { Flight, Sheet } from './records/state';

/** What a test says of a flight: its number, status, grades, and whether the seat has signed. */
type Said = [number: number, status: string, grades?: string[], signed?: 'signed' | 'reopened'];

function desk([number, status, grades = ['', ''], signed]: Said): Desk {
  const id = `F${number}`;
  const cells = grades.map((grade, i) => ({ item: i + 1, grade, history: grade === '' ? [] : ['r'] }));
  const sheet = { judge: 'J', absent: false, cells, signature: { state: signed ?? 'unsigned' } };
  return {
    flight: { id, number } as LineFlight,
    state: { flight: id, status } as Flight,
    attempt: 1,
    sheet: sheet as unknown as Sheet,
  };
}

const numberOf = (found: Desk | undefined) => found?.flight.number;
const present = (said: Said[], chosen?: string) => numberOf(presentDesk(said.map(desk), chosen));

it('shows the flight that was called', () => {
  expect(
    present([
      [1, ''],
      [2, 'called'],
      [3, ''],
    ]),
  ).toBe(2);
  expect(
    present([
      [1, ''],
      [2, ''],
    ]),
  ).toBeUndefined();
});

it('stays at a sheet that was begun, whatever is called meanwhile', () => {
  expect(
    present([
      [1, 'landed', ['7.0', '']],
      [2, 'called'],
    ]),
  ).toBe(1);
  expect(
    present([
      [1, 'landed', ['7.0', '7.5'], 'signed'],
      [2, 'called'],
    ]),
  ).toBe(2);
});

it('goes to the flight in the air before one that has landed and was not graded', () => {
  expect(
    present([
      [1, 'landed'],
      [2, 'flying'],
    ]),
  ).toBe(2);
  expect(
    present([
      [1, 'landed'],
      [2, ''],
    ]),
  ).toBe(1);
});

it('goes where it is told by number, until that sheet is signed', () => {
  expect(
    present(
      [
        [1, ''],
        [2, 'called'],
      ],
      'F1',
    ),
  ).toBe(1);
  expect(
    present(
      [
        [1, '', ['7.0', '7.0'], 'signed'],
        [2, 'called'],
      ],
      'F1',
    ),
  ).toBe(2);
});

it('comes back to a reopened sheet when nothing else is flown', () => {
  const reopened: Said = [1, 'landed', ['7.0', '7.0'], 'reopened'];
  expect(present([reopened, [2, 'flying']])).toBe(2);
  expect(present([reopened, [2, '']])).toBe(1);
});

it('knows what comes next', () => {
  const desks = (
    [
      [1, 'closed'],
      [2, 'landed', ['7.0', '7.0'], 'signed'],
      [3, ''],
      [4, ''],
      [5, ''],
      [6, ''],
    ] as Said[]
  ).map(desk);
  const numbers = (list: Desk[]) => list.map(({ flight }) => flight.number);
  expect(numbers(comingDesks(desks, undefined))).toEqual([3, 4, 5]);
  expect(numbers(comingDesks(desks, desks[3]))).toEqual([5, 6]);
});

it('goes on to the next empty item, then to those left out', () => {
  const sheet = (...grades: string[]) => desk([1, '', grades]).sheet;
  expect(nextEmpty(sheet('7.0', '', ''), 1)).toBe(2);
  expect(nextEmpty(sheet('', '7.0', '7.0'), 3)).toBe(1);
  expect(nextEmpty(sheet('7.0', '7.0'), 1)).toBeUndefined();
});
