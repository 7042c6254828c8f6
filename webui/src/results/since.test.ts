import { expect, it } from 'vitest';
import { toldOf } from './since';

const change = (pilot: string, what: string, from: string, to: string) => ({
  pilot,
  name: pilot,
  what,
  from,
  to,
});

it('tells of each pilot once, whoever stands highest first', () => {
  const told = toldOf([
    change('Jonas', 'score', '1180.00', '1100.50'),
    change('Mara', 'score', '1170.00', '1184.57'),
    change('Mara', 'rank', '4', '2'),
    change('Ines', 'rank', '', '1'),
    change('Ines', 'score', '', '1200.00'),
    change('Tomas', 'rank', '3', ''),
  ]);
  expect(told.map(({ name, words }) => `${name}: ${words}`)).toEqual([
    'Ines: rank 1; score 1200.00',
    'Mara: rank 2, was 4; score 1184.57, was 1170.00',
    'Jonas: score 1100.50, was 1180.00',
    'Tomas: no rank, was 3',
  ]);
});
