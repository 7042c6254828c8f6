/** One flight, from its records. */

import { blocksOf } from './block';
import { cellRuns, idsOf, ofSheet, runs, type Entry, type Group, type Pool } from './pool';
import { compareText } from './record';
import { isWithdrawal } from './scale';
import { settle } from './settle';
import { sheetOf } from './sheet';
import type { Attempt, Flight, FlightSetup, Ruling, Sheet, Verdict } from './state';
import type { Decided } from './status';

export interface Planned extends Group {
  plan: FlightSetup;
}

export function flightOf(pool: Pool, { plan, entries }: Planned, decided: Decided): Flight {
  const { heads, ...said } = decided;
  settleUncounted(pool, entries, decided);
  const byAttempt = new Map<number, Entry[]>(decided.counting > 0 ? [[decided.counting, []]] : []);
  for (const run of runs(entries, (e) => e.cell.attempt)) {
    const attempt = run[0]?.cell.attempt ?? 0;
    if (attempt > 0) byAttempt.set(attempt, run);
  }
  const attempts = [...byAttempt].map(([attempt, list]) => attemptOf(pool, plan, attempt, list));
  attempts.sort((a, b) => a.attempt - b.attempt);
  const flight = { flight: plan.flight, ...said, attempts, blocks: [] };
  return { ...flight, blocks: blocksOf(flight, entries) };
}

/**
 * Settles the records of no attempt. Statuses that differ and yet agree, one
 * being further on, are no conflict.
 */
function settleUncounted(pool: Pool, entries: readonly Entry[], decided: Decided): void {
  for (const cell of cellRuns(entries.filter((e) => e.cell.attempt === 0))) settle(pool, cell);
  if (decided.status_conflict) return;
  for (const e of decided.heads) e.standing = { standing: 'head', cause: '' };
}

function attemptOf(pool: Pool, plan: FlightSetup, attempt: number, entries: readonly Entry[]): Attempt {
  const [rulings, penalties]: [Ruling[], Verdict[]] = [[], []];
  for (const cell of cellRuns(entries.filter((e) => !ofSheet(e.cell)))) {
    if (cell[0]?.record.kind === 'penalty') penalties.push(...verdictOf(pool, cell));
    else rulings.push(...rulingOf(pool, cell));
  }
  const sheets = sheetsOf(
    pool,
    plan,
    entries.filter((e) => ofSheet(e.cell)),
  );
  return { attempt, sheets, rulings, penalties };
}

function sheetsOf(pool: Pool, plan: FlightSetup, entries: readonly Entry[]): Sheet[] {
  const byJudge = new Map(runs(entries, (e) => e.cell.judge).map((run) => [run[0]?.cell.judge ?? '', run]));
  const others = [...byJudge.keys()].filter((judge) => !plan.panel.includes(judge)).sort(compareText);
  const sheet = (judge: string) => sheetOf(pool, plan, judge, byJudge.get(judge) ?? []);
  return [...plan.panel.map(sheet), ...others.map((judge) => ({ ...sheet(judge), off_panel: true }))];
}

/** What a cell of rulings says: nothing where it was withdrawn. */
function rulingOf(pool: Pool, cell: Entry[]): Ruling[] {
  const { heads, agreed } = settle(pool, cell);
  const [first] = heads;
  if (!first) return [];
  const { record } = first;
  const ruling = agreed ? (record.ruling ?? '') : first.cell.name;
  if (isWithdrawal(ruling)) return [];
  const grade = agreed ? (record.grade ?? '') : '';
  return [{ item: first.cell.item, ruling, grade, conflict: !agreed, heads: idsOf(heads) }];
}

/** What a cell of penalties says: nothing where it was taken back. */
function verdictOf(pool: Pool, cell: Entry[]): Verdict[] {
  const { heads, agreed } = settle(pool, cell);
  const penalty = heads[0]?.record.penalty;
  if (!penalty || (agreed && penalty.count === 0)) return [];
  const { kind, count, points } = penalty;
  const value = agreed ? { kind, count, points } : { kind, count: 0, points: 0 };
  return [{ ...value, conflict: !agreed, heads: idsOf(heads) }];
}
