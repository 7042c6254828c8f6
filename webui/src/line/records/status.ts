/** What a flight is doing, which attempt counts, the wind, and what a closing bars. */

import { heads } from './heads';
import { find, idsOf, inForce, named, sameSheet, type Entry, type Pool } from './pool';
import { attemptOf } from './record';
import { course } from './scale';
import type { Flight } from './state';

export interface Decided extends Pick<
  Flight,
  'status' | 'status_conflict' | 'status_heads' | 'wind' | 'counting'
> {
  heads: Entry[];
}

/** Decides by the flight's status records in force. */
export function decideStatus(pool: Pool, entries: readonly Entry[]): Decided {
  const said = entries.filter((e) => e.record.kind === 'status' && inForce(e));
  const found = heads(pool, said);
  const [status, counting, agreed] = furthest(found);
  return {
    status: agreed ? status : '',
    status_conflict: !agreed,
    status_heads: idsOf(found),
    wind: windOf(pool, found),
    counting,
    heads: found,
  };
}

/**
 * The status on which heads agree: the same one, or the furthest of the common
 * course. The attempt is 0 where they differ about it.
 */
function furthest([first, ...rest]: readonly Entry[]): [status: string, attempt: number, agreed: boolean] {
  if (!first) return ['', 1, true];
  const attempt = attemptOf(first.record);
  if (rest.some((e) => attemptOf(e.record) !== attempt)) return ['', 0, false];
  let status = first.record.status ?? '';
  for (const { record } of rest) {
    const [here, there] = [course.indexOf(status), course.indexOf(record.status ?? '')];
    if (record.status !== status && (here < 0 || there < 0)) return ['', attempt, false];
    if (there > here) status = record.status ?? '';
  }
  return [status, attempt, true];
}

/** The side that the heads give, or where one gives none what it replaces, and so on; "" where they differ. */
function windOf(pool: Pool, found: readonly Entry[]): string {
  const asked = new Set<Entry>(found);
  const sides = new Set<string>();
  for (const e of asked) {
    // A set goes on to what is added while it is walked.
    if (e.record.wind) sides.add(e.record.wind);
    else for (const x of replacedBy(pool, e)) asked.add(x);
  }
  return sides.size === 1 ? ([...sides][0] ?? '') : '';
}

function replacedBy(pool: Pool, e: Entry): Entry[] {
  return find(pool, named(e)).filter((x): x is Entry => x?.cell.key === e.cell.key && inForce(x));
}

/** Bars what the closing of a flight had not seen of the attempt that counts. */
export function close(pool: Pool, entries: readonly Entry[], decided: Decided): void {
  if (decided.status !== 'closed') return;
  const seen = seenBy(pool, decided);
  for (const e of entries) {
    if (e.cell.attempt === decided.counting && !e.bar && !seen.has(e)) {
      e.bar = { standing: 'closed', cause: '' };
    }
  }
}

/**
 * A closing has seen what it covers, what a signature it has seen covers and
 * knows, and what any of these replace.
 */
function seenBy(pool: Pool, decided: Decided): Set<Entry> {
  const seen = new Set<Entry>();
  const look = (ids: readonly string[] | undefined, near: (x: Entry) => boolean) => {
    for (const x of find(pool, ids)) if (x && near(x)) seen.add(x);
  };
  for (const { record } of decided.heads) {
    if (record.status !== 'closed') continue;
    look(record.covers, (x) => x.record.flight === record.flight && x.cell.attempt === decided.counting);
  }
  for (const e of seen) {
    const { covers, after, replaces, adopts } = e.record;
    for (const ids of [covers, after, replaces, adopts]) look(ids, (x) => sameSheet(x.cell, e.cell));
  }
  return seen;
}
