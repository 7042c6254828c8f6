/** The items of a sheet as they are spoken of. */

import { m } from '../lib/messages';
import type { Item } from './types';

/** An item's name; where it has none its catalogue numbers, else its number. */
export function itemName({ item }: Item): string {
  return item.name || item.elements.join(' ') || m.sheet.numbered(item.number);
}

/** The catalogue numbers beside a name. */
export function itemNumbers({ item }: Item): string {
  return item.name === '' ? '' : item.elements.join(' ');
}

/** How many decimals the K of a sheet need: the same in every row. */
export function kDecimals(items: Item[]): number {
  return items.some(({ item }) => item.k % 1 !== 0) ? 1 : 0;
}
