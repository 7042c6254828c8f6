/** Words as the cards set them. */

import type { CardItem } from './types';

/** A call in two: the figure's name, which is read first, and what is done in it. */
export function callParts(call: string): [lead: string, rest: string] {
  const at = call.indexOf(':');
  if (at < 0) return call.includes(',') ? ['', call] : [call, ''];
  return [call.slice(0, at + 1), call.slice(at + 1)];
}

/** The longest name that leaves room for a pen beside it. */
const longestName = 60;

/** What a figure is called on a grade sheet, in a line at most. */
export function shortName({ name, elements }: CardItem): string {
  const numbers = elements.join(' ');
  if (name !== '' && name.length <= longestName) return name;
  return numbers.length <= longestName ? numbers : '';
}

/** How many decimals the K of a sequence need: the same in every row. */
export function kDecimals(items: CardItem[]): number {
  return items.some(({ k }) => k % 1 !== 0) ? 1 : 0;
}
