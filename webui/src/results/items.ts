/** The items of a sheet as they are spoken of. */

import { m } from '../lib/messages';
import type { Item } from './types';

/** An item's name, else how its call begins, its catalogue numbers or its number. */
export function itemName(of: Item): string {
  return upper(head(of)) || of.item.elements.join(' ') || m.sheet.numbered(of.item.number);
}

/** The catalogue numbers beside a name. */
export function itemNumbers(of: Item): string {
  return head(of) === '' ? '' : of.item.elements.join(' ');
}

/** What the caller's words say beyond the name: `Loop: on top full roll.` of a loop says `On top full roll.` */
export function itemCall(of: Item): string {
  const { call = '' } = of.item;
  if (!call.toLowerCase().startsWith(head(of).toLowerCase())) return call;
  return upper(call.slice(head(of).length).replace(/^[,:.]?\s*/, ''));
}

/** What won most against the field and what cost most, two of each at the most. */
export function swings(items: Item[]): { won: Item[]; cost: Item[] } {
  const told = items.filter(({ against = 0 }) => Math.abs(against) >= leastTold);
  const sorted = told.sort((a, b) => by(b) - by(a));
  return {
    won: sorted.filter((one) => by(one) > 0).slice(0, 2),
    cost: sorted
      .filter((one) => by(one) < 0)
      .slice(-2)
      .reverse(),
  };
}

/** Points that are shown as 0.0 won and cost nothing. */
const leastTold = 0.05;

function by(item: Item): number {
  return item.against ?? 0;
}

/** The name; a figure that has none is called by its first words. */
function head({ item: { name, call = '' } }: Item): string {
  return name || call.replace(/[,:.].*/s, '');
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
