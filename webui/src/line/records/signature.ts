/** The state of a sheet's signature. */

import { sheetDigest, type Entry as Line } from './digest';
import { agree, heads } from './heads';
import { cellRuns, find, idsOf, inForce, sameSheet, type Entry, type Pool } from './pool';
import { compareText } from './record';
import { joined } from './remarks';
import { settleRest } from './settle';
import type { FlightSetup, Signature } from './state';

/** A seat's sheet while its signatures are read. */
export interface Read {
  pool: Pool;
  plan: FlightSetup;
  judge: string;
  /** The reopenings in force. */
  reopens: readonly string[];
  grades: readonly Entry[];
}

/** Finds the state, marks the grades that signatures in force cover, and returns the signatures that count. */
export function signature(sheet: Read, list: Entry[]): { state: Signature; counting: Entry[] } {
  const force = list.filter(inForce);
  const missing = new Set<string>();
  for (const e of force) {
    if (!knows(e, sheet.reopens)) e.standing = { standing: 'replaced', cause: '' };
    else place(sheet, e, missing);
  }
  settleRest(sheet.pool, list, force);
  const counting = force.filter((e) => e.standing?.standing === 'head');
  const state = stateOf(sheet, counting, force, missing);
  if (state.state === 'signed') cover(sheet.pool, counting);
  return { state, counting };
}

function place(sheet: Read, e: Entry, missing: Set<string>): void {
  const { cause, gone } = read(sheet, e);
  e.standing = { standing: cause === '' ? 'head' : 'waits', cause };
  for (const id of gone) missing.add(id);
}

function stateOf(sheet: Read, counting: Entry[], force: Entry[], missing: Set<string>): Signature {
  const waiting = force.filter((e) => e.standing?.standing === 'waits');
  if (new Set(counting.map((e) => e.record.digest)).size > 1) {
    for (const e of counting) e.standing = { standing: 'conflict', cause: '' };
    return { state: 'differ', signs: idsOf(counting), waits_for: [] };
  }
  if (counting.length > 0) return { state: 'signed', signs: idsOf(counting), waits_for: [] };
  if (waiting.length > 0) {
    return { state: 'waits', signs: idsOf(waiting), waits_for: [...missing].sort(compareText) };
  }
  return { state: sheet.reopens.length > 0 ? 'reopened' : 'unsigned', signs: [], waits_for: [] };
}

/** Names every reopening. */
const knows = ({ record: { after = [] } }: Entry, reopens: readonly string[]): boolean =>
  reopens.every((id) => after.includes(id));

/** Why a signature does not count, "" when it does, with the ids that it covers and that are not here. */
function read(sheet: Read, sign: Entry): { cause: string; gone: string[] } {
  const { covers = [] } = sign.record;
  const gone = covers.filter((id) => !sheet.pool.byId.has(id));
  const covered = new Set(find(sheet.pool, covers).filter((x): x is Entry => x !== undefined));
  for (const x of covered) {
    const ofSheet = x.record.kind === 'grade' && sameSheet(x.cell, sign.cell) && inForce(x);
    if (!ofSheet) return { cause: 'covers', gone };
  }
  if (gone.length > 0) return { cause: 'missing', gone };
  return { cause: causeOf(sheet, sign, covered), gone };
}

function causeOf(sheet: Read, sign: Entry, covered: Set<Entry>): string {
  const { pool, plan, judge, grades } = sheet;
  const lines: Line[] = Array.from({ length: plan.items }, () => ({ grade: '', remark: '' }));
  for (const run of cellRuns(grades.filter((e) => covered.has(e)))) {
    const found = heads(pool, run);
    if (!agree(found)) return 'conflict';
    const { grade = '', item = 0 } = (found[0] as Entry).record;
    lines[item - 1] = { grade, remark: joined(found) };
  }
  if (lines.some((line) => line.grade === '')) return 'empty';
  const digest = sheetDigest(pool.contest, plan.flight, judge, plan.sequence, lines);
  return digest === sign.record.digest ? '' : 'digest';
}

function cover(pool: Pool, signs: readonly Entry[]): void {
  for (const sign of signs) {
    for (const x of find(pool, sign.record.covers)) if (x) x.covered = true;
  }
}
