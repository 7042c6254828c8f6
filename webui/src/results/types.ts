/** What the results pages show, as they show it. */

import type { Head } from '../lib/heads';
import type { Cell } from './reasons';

/** The states of a flight. */
export type State =
  | 'scheduled'
  | 'flying'
  | 'incomplete'
  | 'unresolved'
  | 'flown'
  | 'not-flown'
  | 'withdrawn'
  | 'disqualified';

export interface Named {
  id: string;
  name: string;
}

export interface Pilot {
  name: string;
  affiliation: string;
  aircraft: string;
}

/** How sure a rank is; left out where there is none. */
export interface Certainty {
  low: number;
  high: number;
  first: number;
  podium: number;
}

export interface MethodUsed {
  name: string;
  fallback: string;
  seats: number;
}

/** One flight of a programme's standings. */
export interface Flight {
  id: string;
  number: number;
  pilot: Pilot;
  state: State;
  ranked: boolean;
  rank?: number;
  score?: number;
  percent?: number;
  certainty?: Certainty;
  missing: { grades: number; seats: number[] };
  unresolved: string[];
}

export interface Standings {
  head: Head;
  contest: Named;
  category: Named;
  programme: Named & { cut: number; counts: boolean };
  method: MethodUsed;
  flights: Flight[];
}

export interface Penalty {
  kind: string;
  count: number;
  points: number;
}

/** One row of a sheet. */
export interface Item {
  n: number;
  kind: 'figure' | 'overall';
  name: string;
  numbers: string[];
  k: number;
  drawing?: string;
  value: number;
  points: number;
  field?: { low: number; middle: number; high: number };
  against?: number;
  cells: Cell[];
  remarks: { seat: number; text: string }[];
}

export interface SeatTotal {
  seat: number;
  raw: number;
  used: number;
  weight: number;
  discarded: boolean;
}

export interface Sheet {
  head: Head;
  contest: Named;
  category: Named;
  programme: Named;
  flight: Flight;
  ranks: number;
  method: MethodUsed;
  panelScore?: number;
  standardError?: number;
  penalties: Penalty[];
  items: Item[];
  seats: SeatTotal[];
}
