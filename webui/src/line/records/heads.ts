/** Which records of a cell no other one takes the place of. */

import { named, type Entry, type Pool } from './pool';
import { attemptOf } from './record';

/** The record at one place of a set replaces that at another. */
interface Link {
  by: number;
  old: number;
}

/** Signatures, reopenings and asides all stand; the rest take the place of one another. */
const competes = ({ record: { kind } }: Entry) => kind !== 'sign' && kind !== 'reopen' && kind !== 'aside';

/** The records of a set that no other one of it replaces. */
export function heads(pool: Pool, set: Entry[]): Entry[] {
  const [first] = set;
  if (set.length < 2 || !first || !competes(first)) return set;
  const replaced = new Set(links(pool, set).map((link) => link.old));
  return set.filter((_, i) => !replaced.has(i));
}

/** Who replaces whom in a set. Records that replace one another in a circle replace nothing. */
export function links(pool: Pool, set: readonly Entry[]): Link[] {
  const place = new Map(set.map((e, i) => [e, i]));
  const all = set.flatMap((e, by) =>
    named(e).flatMap((id) => {
      const old = place.get(pool.byId.get(id) as Entry);
      return old === undefined || old === by ? [] : [{ by, old }];
    }),
  );
  return outsideCircles(set.length, all);
}

/** Drops the links of records that stand in a circle of replacing, or between two circles. */
function outsideCircles(n: number, all: Link[]): Link[] {
  if (all.length < 2) return all;
  const below = peel(n, all);
  const above = peel(
    n,
    all.map(({ by, old }) => ({ by: old, old: by })),
  );
  return all.filter(({ by }) => !below.has(by) || !above.has(by));
}

/**
 * Takes away, as long as there is one, a record that nothing left replaces, and
 * returns what remains: everything on or below a circle.
 */
function peel(n: number, all: readonly Link[]): Set<number> {
  const count = Array<number>(n).fill(0);
  for (const { old } of all) count[old] = (count[old] ?? 0) + 1;
  const remains = new Set(count.keys());
  const free = [...remains].filter((i) => count[i] === 0);
  for (let i = free.pop(); i !== undefined; i = free.pop()) {
    remains.delete(i);
    for (const { by, old } of all) {
      if (by !== i) continue;
      count[old] = (count[old] ?? 0) - 1;
      if (count[old] === 0) free.push(old);
    }
  }
  return remains;
}

/** All say the same. */
export const agree = (list: readonly Entry[]): boolean => list.every((e) => same(e, list[0] as Entry));

/** Two records of one kind say the same. */
export function same({ record: a }: Entry, { record: b }: Entry): boolean {
  switch (a.kind) {
    case 'grade':
      return (a.grade ?? '') === (b.grade ?? '');
    case 'ruling':
      return a.ruling === b.ruling && (a.grade ?? '') === (b.grade ?? '');
    case 'penalty':
      return samePenalty(a.penalty, b.penalty);
    case 'absent':
      return Boolean(a.absent) === Boolean(b.absent);
    case 'status':
      return a.status === b.status && attemptOf(a) === attemptOf(b);
  }
  return true;
}

function samePenalty(a: Entry['record']['penalty'], b: Entry['record']['penalty']): boolean {
  return a?.kind === b?.kind && a?.count === b?.count && a?.points === b?.points;
}
