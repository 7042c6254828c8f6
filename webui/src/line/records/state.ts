/** What a set of records says. */

import type { Penalty } from './record';

/** What the records are read against. */
export interface Setup {
  contest: string;
  flights: FlightSetup[];
}

/** One flight as it is set up now. */
export interface FlightSetup {
  flight: string;
  /** The digest of its sequence. */
  sequence: string;
  items: number;
  /** Judges, by seat. */
  panel: string[];
}

export interface State {
  /** In the order of the set-up. */
  flights: Flight[];
  /** Ids of records for flights that the set-up does not know; they wait for a decision. */
  unplaced: string[];
  standings: Record<string, Standing>;
}

/**
 * `late` (outside the signature that counts), `closed` (the closing had not
 * seen it), `other-sequence` and `held` count nothing and wait for an official.
 */
export type Place =
  'head' | 'replaced' | 'conflict' | 'waits' | 'aside' | 'late' | 'closed' | 'other-sequence' | 'held';

export interface Standing {
  standing: Place;
  /** Why a record is held or a signature waits; else "". */
  cause: string;
}

export interface Flight {
  flight: string;
  /** "" where nothing was said yet or the heads contradict. */
  status: string;
  status_conflict: boolean;
  status_heads: string[];
  /** "left", "right", or "" for unknown. */
  wind: string;
  /** The attempt that counts, 0 where the heads contradict. */
  counting: number;
  attempts: Attempt[];
  blocks: Block[];
}

export interface Attempt {
  attempt: number;
  /** The panel's seats in their order, then other judges by id. */
  sheets: Sheet[];
  rulings: Ruling[];
  penalties: Verdict[];
}

export interface Sheet {
  judge: string;
  off_panel: boolean;
  by: string;
  absent: boolean;
  absent_conflict: boolean;
  absent_heads: string[];
  /** One for each item. */
  cells: Cell[];
  signature: Signature;
  /** The ids that a new signature names in `after`. */
  reopens: string[];
}

export interface Cell {
  item: number;
  /** "" for not entered, which a conflict is too. */
  grade: string;
  remark: string;
  conflict: boolean;
  heads: string[];
  /** Every record of the cell, by id. */
  history: string[];
}

export interface Signature {
  state: 'unsigned' | 'signed' | 'waits' | 'differ' | 'reopened';
  signs: string[];
  /** Ids of grades that are not here. */
  waits_for: string[];
}

/** In conflict the ruling is the question. */
export interface Ruling {
  item: number;
  ruling: string;
  grade: string;
  conflict: boolean;
  heads: string[];
}

/** In conflict count and points are 0. */
export interface Verdict extends Penalty {
  conflict: boolean;
  heads: string[];
}

/** One thing that keeps a flight from becoming official. */
export interface Block {
  cause: 'status' | 'sheet' | 'conflict' | 'absent' | 'ruling' | 'penalty' | 'record';
  judge: string;
  item: number;
  record: string;
  state: string;
}
