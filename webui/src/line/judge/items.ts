import { m } from '../../lib/messages/line';
import type { Item } from '../plan';

/** What an item is called where its number stands beside it. */
export function itemName(item: Item | undefined, number: number): string {
  return item?.name || item?.elements.join(' ') || m.line.figure(number);
}

/** What an item is called in a sentence: "Figure 3", or the mark's name. */
export function saidName(item: Item | undefined, number: number): string {
  return item?.kind === 'overall' && item.name !== '' ? item.name : m.line.figure(number);
}
