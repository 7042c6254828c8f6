import { expect, it } from 'vitest';
import { sheet } from '../lib/fixtures/contest';
import { itemCall, itemName, itemNumbers, swings } from './items';
import type { Item } from './types';

const called = (name: string, call: string, elements = ['5.21.1.1']): Item => ({
  item: { number: 2, kind: 'figure', k: 16, elements, name, call },
  cells: [],
  remarks: [],
});

it.each<[string, Item, string[]]>([
  [
    'the call beyond the name',
    called('loop', 'Loop: at the top full roll.'),
    ['Loop', 'At the top full roll.'],
  ],
  ['nothing where the call is the name', called('hammerhead', 'Hammerhead.'), ['Hammerhead', '']],
  ['a call of another beginning whole', called('level line', 'Full roll.'), ['Level line', 'Full roll.']],
  [
    'a call without a name in two',
    called('', 'Half a loop up, on the level half roll.'),
    ['Half a loop up', 'On the level half roll.'],
  ],
])('tells %s', (_, item, want) => {
  expect([itemName(item), itemCall(item)]).toEqual(want);
  expect(itemNumbers(item)).toBe('5.21.1.1');
});

it('calls a figure by its numbers where nothing else is known, and says them once', () => {
  expect([itemName(called('', '')), itemNumbers(called('', ''))]).toEqual(['5.21.1.1', '']);
  expect(itemName(called('', '', []))).toBe('Figure 2');
});

it('picks what won and what cost most, and nothing that is shown as 0.0', () => {
  const items = sheet()
    .items.slice(0, 6)
    .map((item, i) => ({ ...item, against: [3, -8, 0.04, 12, -0.5, 1][i] ?? 0 }));
  const numbers = (those: Item[]) => those.map(({ item }) => item.number);
  const { won, cost } = swings(items);
  expect([numbers(won), numbers(cost)]).toEqual([
    [4, 1],
    [2, 5],
  ]);
  expect(swings(items.map((item) => ({ ...item, against: 0 })))).toEqual({ won: [], cost: [] });
});
