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

/** A number ready to be shown, empty where there is none, and where it leads. */
export interface Figure {
  text: string;
  href?: string;
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
  /** In the order of the columns. */
  numbers: Figure[];
  certainty?: Certainty;
  /** Ranks gained at the last change, lost where negative. */
  moved: number;
}

export interface Group {
  key: string;
  /** Nothing for a group that the page's heading names. */
  name: string;
  rows: Row[];
}

/** Whether a row is the last one that goes on after a cut: of equal ranks the last one; never where all go on. */
export function endsCut(rows: Row[], i: number, cut: number): boolean {
  const rank = rows[i]?.rank ?? Infinity;
  const next = rows.slice(i + 1).find((row) => row.rank !== null)?.rank ?? Infinity;
  return cut > 0 && rank <= cut && next > cut && next !== Infinity;
}

/** Remembers the ranks of the reading before, so that a change of ranks can be shown until the next one. */
export class Movement {
  #ranks = new Map<string, number | null>();
  #moved = new Map<string, number>();

  /** The groups of a new reading with the ranks gained written into their rows. */
  next(groups: Group[]): Group[] {
    const rows = groups.flatMap((group) => group.rows);
    const moved = new Map(rows.map((row) => [row.key, this.#gained(row)]));
    if ([...moved.values()].some((by) => by !== 0)) this.#moved = moved;
    this.#ranks = new Map(rows.map((row) => [row.key, row.rank]));
    return groups.map((group) => ({
      ...group,
      rows: group.rows.map((row) => ({ ...row, moved: this.#moved.get(row.key) ?? 0 })),
    }));
  }

  #gained(row: Row): number {
    const was = this.#ranks.get(row.key);
    return was === undefined || was === null || row.rank === null ? 0 : was - row.rank;
  }
}
