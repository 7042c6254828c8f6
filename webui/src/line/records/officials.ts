/** What officials set aside and take over. */

import { same } from './heads';
import type { Entry, Pool } from './pool';
import { decides } from './record';

/**
 * Applies what officials set aside. A grade or a signature then counts nothing,
 * whatever it was; of the officials' own records, which replacing corrects,
 * only one that is barred can be set aside.
 */
export function setAside(pool: Pool): void {
  for (const a of pool.entries) {
    if (a.record.kind !== 'aside' || a.bar || !a.record.reason) continue;
    for (const id of a.record.covers ?? []) {
      const e = pool.byId.get(id);
      if (e && e !== a && (e.bar || isMark(e))) e.aside = true;
    }
  }
}

/** Finds the records by which officials take over others, and takes the others out of cells that they leave. */
export function takeOver(pool: Pool): void {
  for (const e of pool.entries) {
    e.takes = decides(e.record) && !e.aside && (!e.bar || e.bar.standing === 'closed') && takesAny(pool, e);
  }
  for (const e of pool.entries.filter((one) => one.takes)) {
    for (const x of adopted(pool, e)) {
      if (canLeave(x, e)) x.away = true;
    }
  }
}

/**
 * Takes over at least one record that says the same and counts nothing where it
 * is, or that leaves its cell.
 */
function takesAny(pool: Pool, e: Entry): boolean {
  const barredTwin = (x: Entry) => x.cell.key === e.cell.key && Boolean(x.bar) && same(x, e);
  const replaced = present(pool, e.record.replaces);
  return (
    replaced.some(barredTwin) ||
    adopted(pool, e).some((x) => (canLeave(x, e) && same(x, e)) || (x !== e && barredTwin(x)))
  );
}

/** Can be taken over from another cell. */
const canLeave = (x: Entry, e: Entry): boolean =>
  isMark(x) && x.record.kind === e.record.kind && x.cell.key !== e.cell.key;

const isMark = ({ record: { kind } }: Entry) => kind === 'grade' || kind === 'sign';

const adopted = (pool: Pool, e: Entry): Entry[] => present(pool, e.record.adopts);

const present = (pool: Pool, ids: readonly string[] = []): Entry[] =>
  ids.flatMap((id) => pool.byId.get(id) ?? []);
