import { describe, expect, it } from 'vitest';
import { absentSeats, explain, gradeText, named } from './reasons';
import type { Cell } from './types';

const cell = (seat: number, grade: string, reason = '', used = 7, weight?: number): Cell =>
  weight === undefined ? { seat, grade, reason, used } : { seat, grade, reason, used, weight };

describe('explain', () => {
  it.each<[string, Cell[], number, string[]]>([
    ['nothing where all counts as given', [cell(1, '7.0'), cell(2, '7.5')], 7.2, []],
    [
      'an outlier with its trust',
      [cell(5, '4.0', 'outlier', 4.1, 0.118)],
      7.58,
      ['Seat 5’s 4.0 was counted at 12 %: the panel saw 7.6.'],
    ],
    [
      'an outlier without any',
      [cell(5, '1.0', 'outlier', 1, 0)],
      7.58,
      ['Seat 5’s 1.0 was not counted: the panel saw 7.6.'],
    ],
    [
      'a zero given as perceived, far from the others',
      [cell(2, 'PZ', 'outlier', 0, 0)],
      8,
      ['Seat 2’s perception zero was not counted: the panel saw 8.0.'],
    ],
    [
      'hard zeros not upheld, together',
      [cell(3, 'HZ', 'hard zero not upheld', 6.61), cell(7, 'HZ', 'hard zero not upheld', 6.61)],
      6.61,
      ['The hard zeros of seats 3 and 7 were not upheld and count as the panel’s 6.6.'],
    ],
    [
      'a confirmed hard zero once for the row',
      [1, 2, 3].map((seat) => cell(seat, seat === 1 ? 'HZ' : '6.0', 'hard zero confirmed', 0)),
      0,
      ['Hard zero confirmed: the figure counts 0 from every seat.'],
    ],
    [
      'not seen before an outlier',
      [cell(1, '2.0', 'outlier', 2, 0.3), cell(4, 'A', 'not seen', 7.22)],
      7.22,
      [
        'Seat 4 did not see it and takes the panel’s 7.2.',
        'Seat 1’s 2.0 was counted at 30 %: the panel saw 7.2.',
      ],
    ],
    [
      'what the trimmed mean leaves out',
      [cell(1, '9.0', 'trimmed', 9), cell(3, '5.0', 'trimmed', 5)],
      7,
      ['Left out as lowest and highest: seat 3’s 5.0 and seat 1’s 9.0.'],
    ],
    ['an absent seat not in every row', [cell(9, '', 'seat absent')], 7, []],
    ['a reason it does not know', [cell(9, '5.0', 'something new')], 7, []],
  ])('tells %s', (_, cells, panel, want) => expect(explain(cells, panel)).toEqual(want));
});

it('finds the seats absent from the whole flight', () => {
  const away = cell(2, '', 'seat absent');
  expect(absentSeats([[cell(1, '7.0'), away], [away]])).toEqual([2]);
  expect(absentSeats([[away], [cell(2, '7.0')]])).toEqual([]);
  expect(absentSeats([])).toEqual([]);
});

it('numbers the dots that a sentence names', () => {
  expect(named([cell(1, '7.0'), cell(2, '1.0', 'outlier'), cell(3, 'A', 'not seen')])).toEqual([2]);
});

it.each([
  ['7.5', '7.5'],
  ['HZ', 'hard zero'],
  ['A', 'not seen'],
])('says %s as “%s”', (grade, text) => expect(gradeText(grade)).toBe(text));
