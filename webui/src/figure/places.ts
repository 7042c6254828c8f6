/** Where in a sequence a complaint belongs. */

import { m } from '../lib/messages/figure';
import type { Complaint } from './types';

/** An item, and inside it a move, a rotation of it, or a field; counted from 0. */
interface Spot {
  item?: number;
  move?: number;
  rotation?: number;
  field?: string;
}

/** Reads `items[1].moves[2].line[0].turns` as well as `/items/1/moves/2/line/0/turns`. */
export function spot(place: string): Spot {
  const parts = place.split(/[.[\]/#]+/).filter((part) => part !== '');
  const [items, item, list, index, , rotation] = parts;
  if (items !== 'items' || item === undefined) return parts[0] === undefined ? {} : { field: parts[0] };
  const found: Spot = { item: Number(item) };
  if (list === 'moves' && index !== undefined) {
    found.move = Number(index);
    if (rotation !== undefined && /^\d+$/.test(rotation)) found.rotation = Number(rotation);
  } else if (list !== undefined) {
    found.field = list;
  }
  return found;
}

/** A complaint with the item it is about, as the page counts them. */
export function told({ place, text }: Complaint): string {
  const { item } = spot(place);
  return item === undefined ? text : m.editor.ofItem(item + 1, text);
}
