/** One seat's sheet of an attempt. */

import { links, same } from './heads';
import { cellRuns, idsOf, inForce, named, type Entry, type Pool } from './pool';
import { decides } from './record';
import { joined } from './remarks';
import { settle, settleAmong, type Settled } from './settle';
import { signature } from './signature';
import type { Cell, FlightSetup, Sheet } from './state';

/** Resolves one seat's records of an attempt, given in order. */
export function sheetOf(pool: Pool, plan: FlightSetup, judge: string, list: readonly Entry[]): Sheet {
  const ofKind = (kind: string) => list.filter((e) => e.record.kind === kind);
  const absence = absenceOf(pool, ofKind('absent'));
  const reopens = idsOf(settle(pool, ofKind('reopen')).heads);
  const grades = ofKind('grade');
  const signed = signature({ pool, plan, judge, reopens, grades }, ofKind('sign'));
  const { cells, heads } = cellsOf(pool, plan.items, grades, signed.state.state === 'signed');
  const by = personIn(signed.counting, heads);
  return { judge, off_panel: false, by, ...absence, cells, signature: signed.state, reopens };
}

function absenceOf(pool: Pool, list: Entry[]) {
  const { heads, agreed } = settle(pool, list);
  return {
    absent: agreed && heads[0]?.record.absent === true,
    absent_conflict: !agreed,
    absent_heads: idsOf(heads),
  };
}

/** The cells, and the heads of all that do not contradict. */
function cellsOf(pool: Pool, items: number, grades: readonly Entry[], signed: boolean) {
  const cells = Array.from({ length: items }, (_, i) => emptyCell(i + 1));
  const all: Entry[] = [];
  for (const run of cellRuns(grades)) {
    const settled = signed ? settleSigned(pool, run) : settle(pool, run);
    const item = run[0]?.cell.item ?? 0;
    if (item < 1 || item > items) continue;
    cells[item - 1] = cellOf(item, run, settled);
    if (settled.agreed) all.push(...settled.heads);
  }
  return { cells, heads: all };
}

const emptyCell = (item: number): Cell => ({
  item,
  grade: '',
  remark: '',
  conflict: false,
  heads: [],
  history: [],
});

function cellOf(item: number, run: readonly Entry[], { heads, agreed }: Settled): Cell {
  const grade = agreed ? (heads[0]?.record.grade ?? '') : '';
  const remark = agreed ? joined(heads) : '';
  return { item, grade, remark, conflict: !agreed, heads: idsOf(heads), history: idsOf(run) };
}

/**
 * Settles a cell of a signed sheet: what the signature covers counts, and above
 * it what officials took over since; everything else is what these replaced, or
 * late.
 */
function settleSigned(pool: Pool, all: Entry[]): Settled {
  const force = all.filter(inForce);
  const old = ancestors(pool, force);
  const free = new Set(force.filter((e) => !e.covered && !old.has(e)));
  const counts = force.filter((e) => e.covered || (free.has(e) && amends(pool, e, free)));
  for (const e of old) if (!e.covered) e.standing = { standing: 'replaced', cause: '' };
  return settleAmong(pool, all, counts);
}

/** The records of a set that covered ones replace, directly or through others. */
function ancestors(pool: Pool, set: readonly Entry[]): Set<Entry> {
  const all = links(pool, set);
  const old = new Set<Entry>();
  const below = (e: Entry) => {
    for (const link of all) if (set[link.by] === e) old.add(set[link.old] as Entry);
  };
  for (const e of set) if (e.covered) below(e);
  for (const e of old) below(e); // goes on to what is added meanwhile
  return old;
}

/**
 * A record outside the signature counts all the same: an official's that takes
 * over one that counted nothing, or one as late as itself.
 */
function amends(pool: Pool, e: Entry, free: Set<Entry>): boolean {
  if (e.takes) return true;
  if (!decides(e.record)) return false;
  return named(e).some((id) => {
    const x = pool.byId.get(id);
    return x !== undefined && x !== e && free.has(x) && same(x, e);
  });
}

/**
 * The person whom the signatures name as sitting in the seat, or where they
 * name none the one whom all grades that name one name.
 */
function personIn(signs: readonly Entry[], heads: readonly Entry[]): string {
  const signer = signs.find((e) => e.record.by)?.record.by;
  if (signer) return signer;
  const people = new Set(heads.map((e) => e.record.by).filter((by) => by));
  return people.size === 1 ? ([...people][0] ?? '') : '';
}
