/** A table of standings as it is drawn: of one programme, of a category, of teams. */

import type { Certainty } from './types';

/** One number of a row under its heading. */
export interface Column {
  key: string;
  name: string;
  /** The long form of a short name. */
  long?: string;
  /** The one that the rank is taken from. */
  main?: boolean;
}

export interface Row {
  key: string;
  name: string;
  href?: string;
  detail: string;
  /** What stands in the way of a score, in words. */
  note: string;
  rank: number | null;
  /** Where there is no rank: why, in a word. */
  unranked: string;
  /** Ready to be shown, in the order of the columns; empty where there is none. */
  numbers: string[];
  certainty?: Certainty;
  /** Ranks gained at the last change, lost where negative. */
  moved: number;
}

export interface Group {
  key: string;
  /** Nothing for the first group, which the page's heading names. */
  name: string;
  rows: Row[];
}

/** Ranks gained by each key since an earlier reading; 0 where one of the two has none. */
export function moves(before: Group[], after: Group[]): Map<string, number> {
  const old = new Map(rowsIn(before).map((row) => [row.key, row.rank]));
  return new Map(
    rowsIn(after).map((row) => {
      const was = old.get(row.key);
      return [row.key, was == null || row.rank == null ? 0 : was - row.rank];
    }),
  );
}

/** Groups with the moves written into their rows. */
export function withMoves(groups: Group[], by: Map<string, number>): Group[] {
  return groups.map((group) => ({
    ...group,
    rows: group.rows.map((row) => ({ ...row, moved: by.get(row.key) ?? 0 })),
  }));
}

function rowsIn(groups: Group[]): Row[] {
  return groups.flatMap((group) => group.rows);
}
