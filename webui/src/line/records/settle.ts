/** The heads of a cell, and where all its records stand. */

import { agree, heads } from './heads';
import { cellRuns, inForce, named, type Entry, type Pool } from './pool';
import { decides } from './record';
import type { Standing } from './state';

export interface Settled {
  heads: Entry[];
  agreed: boolean;
}

const at = (standing: Standing['standing']): Standing => ({ standing, cause: '' });

/** Settles a cell without a signature. */
export const settle = (pool: Pool, all: Entry[]): Settled => settleAmong(pool, all, all.filter(inForce));

/** Settles a cell among the records that count there. */
export function settleAmong(pool: Pool, all: readonly Entry[], force: Entry[]): Settled {
  const found = heads(pool, force);
  const agreed = agree(found);
  for (const e of force) e.standing = at('replaced');
  for (const e of found) e.standing = at(agreed ? 'head' : 'conflict');
  settleRest(pool, all, force);
  return { heads: found, agreed };
}

/**
 * Gives the records of a cell that have no standing yet theirs: an official's
 * record in force has taken them over, they are set aside, a later one of the
 * same device that does not count either replaces them, or they wait for a
 * decision.
 */
export function settleRest(pool: Pool, all: readonly Entry[], force: readonly Entry[]): void {
  const taken = takenBy(pool, force);
  for (const list of byDevice(all.filter((e) => !e.standing))) {
    const last = new Set(heads(pool, list));
    for (const e of list) {
      if (e.away || taken.has(e)) e.standing = at('replaced');
      else if (e.aside) e.standing = at('aside');
      else e.standing = last.has(e) ? (e.bar ?? at('late')) : at('replaced');
    }
  }
}

function byDevice(list: readonly Entry[]): Iterable<Entry[]> {
  const lists = new Map<string, Entry[]>();
  for (const e of list) {
    const device = e.record.author.device ?? '';
    lists.set(device, [...(lists.get(device) ?? []), e]);
  }
  return lists.values();
}

/** The records that officials' records in force name. */
function takenBy(pool: Pool, force: readonly Entry[]): Set<Entry> {
  const taken = new Set<Entry>();
  for (const f of force) {
    if (!decides(f.record)) continue;
    for (const id of named(f)) {
      const x = pool.byId.get(id);
      if (x && x.cell.key === f.cell.key) taken.add(x);
    }
  }
  return taken;
}

/** Settles the records of unknown flights and returns the ids of those that wait for a decision. */
export function unplaced(pool: Pool): string[] {
  const waiting: string[] = [];
  for (const { plan, entries } of pool.byFlight.values()) {
    if (plan) continue;
    for (const cell of cellRuns(entries)) settle(pool, cell);
    waiting.push(...entries.filter(waits).map((e) => e.record.id));
  }
  return waiting.sort();
}

/** Waits for a decision. */
export const waits = ({ standing }: Entry): boolean =>
  ['late', 'closed', 'other-sequence', 'held'].includes(standing?.standing ?? '');
