/** An order while it is changed by hand. */

import type { Draw, Order, Pilot, Turn } from './service';

/** A pilot at a place; without a flight for one who is added. */
export interface Row {
  pilot: Pilot;
  turn?: Turn;
}

/** The rows of an order, or of the pilots that are to be its order. */
export function rowsOf(order: Order, pilots?: string[]): Row[] {
  const all: Row[] = [
    ...order.turns.map((turn) => ({ pilot: turn.pilot, turn })),
    ...order.entered.map((pilot) => ({ pilot })),
  ];
  if (!pilots) return all.slice(0, order.turns.length);
  return pilots.flatMap((id) => all.find(({ pilot }) => pilot.id === id) ?? []);
}

/** Who is entered, or was taken out, and is not among the rows. */
export function left(order: Order, rows: Row[]): Pilot[] {
  const all = [...order.turns.map(({ pilot }) => pilot), ...order.entered];
  return all.filter(({ id }) => !rows.some(({ pilot }) => pilot.id === id));
}

/** The first place, from 0, that a flight can be moved to: behind all that were called. */
export const firstFree = (rows: Row[]): number => rows.findLastIndex(({ turn }) => turn?.fixed) + 1;

/** The pilots after one of them was moved to a place, as near as it can come there. */
export function moved(rows: Row[], from: number, to: number): string[] {
  const ids = rows.map(({ pilot }) => pilot.id);
  const place = Math.min(Math.max(to, firstFree(rows)), ids.length - 1);
  const [id] = ids.splice(from, 1);
  if (id !== undefined) ids.splice(place, 0, id);
  return ids;
}

export type Way = 'lot' | 'best' | 'last' | 'blocks' | 'blocks-last';

/** What stands in the form of a draw. */
export interface Fields {
  way: Way;
  of: string;
  block: string;
  best: string;
  seed: string;
}

/** What is asked of the service for what stands in the form. */
export function drawOf({ way, of, block, best, seed }: Fields, revision: number): Draw {
  const lot = way === 'lot' || way.startsWith('blocks');
  const standing = way !== 'lot';
  return {
    revision,
    by: standing ? 'standing' : 'lot',
    ...(standing && of ? { of } : {}),
    ...(standing && best.trim() ? { best: Number(best) } : {}),
    ...(way.endsWith('last') ? { reversed: true } : {}),
    ...(way.startsWith('blocks') ? { block: Number(block) } : {}),
    ...(lot && seed.trim() ? { seed: seed.trim() } : {}),
  };
}
