/** The records while they are resolved: each once, sorted into flights and cells. */

import { barOf, type Bar } from './bar';
import { attemptOf, compareText, decides, type LineRecord, type Stored } from './record';
import { rulingFamily } from './scale';
import type { FlightSetup, Setup, Standing } from './state';
import { written } from './written';

/** What records of one kind compete for. */
export interface Cell {
  flight: string;
  /** 0 for what belongs to no attempt. */
  attempt: number;
  kind: string;
  judge: string;
  item: number;
  /** A penalty's kind, a ruling's question. */
  name: string;
  key: string;
}

export interface Entry {
  record: Stored;
  cell: Cell;
  bar: Bar;
  /** Set aside. */
  aside: boolean;
  /** Taken over into another cell. */
  away: boolean;
  /** An official's, taking over records of the same content. */
  takes: boolean;
  /** Covered by a signature that counts. */
  covered: boolean;
  standing: Standing | undefined;
}

export interface Group {
  /** Nothing for a flight that the set-up does not know. */
  plan: FlightSetup | undefined;
  /** In order. */
  entries: Entry[];
}

export interface Pool {
  contest: string;
  entries: Entry[];
  byId: Map<string, Entry>;
  byFlight: Map<string, Group>;
}

export function gather(setup: Setup, records: readonly Stored[]): Pool {
  const byFlight = new Map<string, Group>(setup.flights.map((plan) => [plan.flight, { plan, entries: [] }]));
  const entries: Entry[] = [];
  for (const record of unique(records)) {
    const group = groupOf(byFlight, record.flight);
    const entry = entryOf(record, group.plan);
    entries.push(entry);
    group.entries.push(entry);
  }
  for (const group of byFlight.values()) group.entries.sort(order);
  return { contest: setup.contest, entries, byId: new Map(entries.map((e) => [e.record.id, e])), byFlight };
}

/**
 * Each record once. Stores refuse a second one of an id with other content;
 * should two come all the same, the choice does not depend on which came first.
 */
function unique(records: readonly Stored[]): Iterable<Stored> {
  const byId = new Map<string, Stored>();
  for (const record of records) {
    const twin = byId.get(record.id);
    if (!twin || (twin !== record && compareText(written(record), written(twin)) < 0)) {
      byId.set(record.id, record);
    }
  }
  return byId.values();
}

function groupOf(byFlight: Map<string, Group>, flight: string): Group {
  const known = byFlight.get(flight);
  if (known) return known;
  const group: Group = { plan: undefined, entries: [] };
  byFlight.set(flight, group);
  return group;
}

function entryOf(record: Stored, plan: FlightSetup | undefined): Entry {
  const flags = { aside: false, away: false, takes: false, covered: false };
  return { record, cell: cellOf(record), bar: barOf(record, plan), ...flags, standing: undefined };
}

export function cellOf(record: LineRecord): Cell {
  const { flight, kind, judge = '', item = 0 } = record;
  const cell = { flight, attempt: attemptOf(record), kind, judge: '', item: 0, name: '' };
  if (kind === 'grade') Object.assign(cell, { judge, item });
  else if (kind === 'sign' || kind === 'reopen' || kind === 'absent') cell.judge = judge;
  else if (kind === 'ruling') Object.assign(cell, { item, name: rulingFamily(record.ruling ?? '') });
  else if (kind === 'penalty') cell.name = record.penalty?.kind ?? '';
  else cell.attempt = 0;
  return { ...cell, key: JSON.stringify(Object.values(cell)) };
}

/** By attempt, the officials' records first, then sheet by sheet; inside a cell by id. */
function order(a: Entry, b: Entry): number {
  return (
    a.cell.attempt - b.cell.attempt ||
    compareText(a.cell.judge, b.cell.judge) ||
    compareText(a.cell.kind, b.cell.kind) ||
    a.cell.item - b.cell.item ||
    compareText(a.cell.name, b.cell.name) ||
    compareText(a.record.id, b.record.id)
  );
}

/** Belongs to one seat's sheet. */
export const ofSheet = ({ kind }: Cell): boolean => ['grade', 'sign', 'reopen', 'absent'].includes(kind);

/** Both of one seat's sheet, or of what the officials recorded of one attempt. */
export const sameSheet = (a: Cell, b: Cell): boolean =>
  a.attempt > 0 && a.attempt === b.attempt && a.judge === b.judge && a.flight === b.flight;

/** Takes part in its cell. */
export const inForce = (e: Entry): boolean =>
  !e.aside && !e.away && (!e.bar || (e.bar.standing === 'closed' && e.takes));

/** The records with these ids, nothing for one that is not here. */
export const find = (pool: Pool, ids: readonly string[] = []): (Entry | undefined)[] =>
  ids.map((id) => pool.byId.get(id));

export const idsOf = (list: readonly Entry[]): string[] => list.map((e) => e.record.id);

/** The ids that a record replaces or takes over. */
export function named({ record }: Entry): string[] {
  const { replaces = [], adopts = [] } = record;
  return decides(record) ? [...replaces, ...adopts] : replaces;
}

/** Cuts a list into runs of neighbours that have the same key. */
export function runs<T>(list: readonly T[], key: (one: T) => unknown): T[][] {
  const cut: T[][] = [];
  let last: unknown;
  for (const one of list) {
    const present = key(one);
    if (cut.length === 0 || present !== last) cut.push([]);
    cut.at(-1)?.push(one);
    last = present;
  }
  return cut;
}

/** Cuts a list into its cells. */
export const cellRuns = (list: readonly Entry[]): Entry[][] => runs(list, (e) => e.cell.key);
