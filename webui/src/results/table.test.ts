import { expect, it } from 'vitest';
import { endsCut, Movement, type Group } from './table';

const group = (...ranks: [string, number | null][]): Group[] => [
  {
    key: 'g',
    name: '',
    rows: ranks.map(([key, rank]) => ({
      key,
      name: key,
      detail: '',
      note: '',
      rank,
      unranked: '',
      numbers: [],
      moved: 0,
    })),
  },
];
const moved = (groups: Group[]) => groups.flatMap(({ rows }) => rows.map((row) => [row.key, row.moved]));

it('shows no move on the first reading', () => {
  expect(moved(new Movement().next(group(['a', 1], ['b', 2])))).toEqual([
    ['a', 0],
    ['b', 0],
  ]);
});

it('shows ranks gained and lost until the next change', () => {
  const movement = new Movement();
  movement.next(group(['a', 1], ['b', 2], ['c', null]));
  const change = group(['b', 1], ['a', 2], ['c', 3]);
  const want = [
    ['b', 1],
    ['a', -1],
    ['c', 0], // it had no rank to rise from
  ];
  expect(moved(movement.next(change))).toEqual(want);
  expect(moved(movement.next(change))).toEqual(want);
  expect(moved(movement.next(group(['b', 1], ['c', 2], ['a', 3])))).toEqual([
    ['b', 0],
    ['c', 1],
    ['a', -1],
  ]);
});

it('rules off those who go on, all of an equal rank, past whoever holds none', () => {
  const [{ rows } = { rows: [] }] = group(['a', 1], ['b', 2], ['c', 2], ['d', null], ['e', 4]);
  const ends = (cut: number) => rows.filter((_, i) => endsCut(rows, i, cut)).map(({ key }) => key);
  expect(ends(1)).toEqual(['a']);
  expect(ends(2)).toEqual(['c']);
  expect(ends(3)).toEqual(['c']);
  expect([ends(0), ends(4)]).toEqual([[], []]);
});
