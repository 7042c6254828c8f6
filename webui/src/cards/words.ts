/** Words as the cards set them. */

import type { CardItem } from './types';

/** A call in two: the figure's name, which is read first, and what is done in it. */
export function callParts(call: string): [lead: string, rest: string] {
  const at = call.indexOf(':');
  if (at < 0) return call.includes(',') ? ['', call] : [call, ''];
  return [call.slice(0, at + 1), call.slice(at + 1)];
}

/** The longest words that leave room for a pen below them. */
const longest = 60;

/** The most telling words for a figure that are short enough for a grade sheet, where a drawing is small. */
export function shortWords({ call, name, elements }: CardItem): string {
  const fit = [call, name, elements.join(' ')].filter(({ length }) => length <= longest);
  return fit.find((words) => words !== '') ?? '';
}
