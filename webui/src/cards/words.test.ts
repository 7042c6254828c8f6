import { expect, it } from 'vitest';
import { cardItem } from './fixture';
import { usualPaper } from './paper';
import { callParts, shortWords } from './words';

it.each([
  ['Loop: at the top full roll.', ['Loop:', ' at the top full roll.']],
  ['Full roll.', ['Full roll.', '']],
  ['Half roll, out inverted.', ['', 'Half roll, out inverted.']],
])('%s is read by its name first', (call, parts) => {
  expect(callParts(call)).toEqual(parts);
});

it('a grade sheet takes the longest words that leave room for a pen', () => {
  const long = 'Torque roll: '.padEnd(90, 'and on ');
  expect(shortWords(cardItem(1, { call: 'Full roll.' }))).toBe('Full roll.');
  expect(shortWords(cardItem(1, { call: long, name: 'torque roll' }))).toBe('torque roll');
  expect(shortWords(cardItem(1, { call: '', name: '', elements: ['7.1.1.1', '9.1.1.2'] }))).toBe(
    '7.1.1.1 9.1.1.2',
  );
  expect(shortWords(cardItem(1, { call: long, name: long, elements: [] }))).toBe('');
});

it('paper is Letter where that is usual', () => {
  expect(['en-US', 'fr-CA', 'en-GB', 'de', 'en'].map(usualPaper)).toEqual([
    'letter',
    'letter',
    'a4',
    'a4',
    'a4',
  ]);
});
