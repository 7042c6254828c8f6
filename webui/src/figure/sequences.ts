/** Every sequence of a contest with what became of it, as the office reads it. */

import { each } from '../lib/each';
import { readContest } from '../results/read';
import { readSequences } from './service';
import { stateOf, type State } from './states';
import type { SequenceList, SequenceState } from './types';

/** One sequence in the office's list. */
export interface Row extends SequenceState {
  state: State;
}

export interface ProgrammeRows {
  id: string;
  name: string;
  kind: SequenceList['programme']['kind'];
  rows: Row[];
}

interface CategoryRows {
  id: string;
  name: string;
  programmes: ProgrammeRows[];
}

interface ContestRows {
  id: string;
  name: string;
  categories: CategoryRows[];
}

/** Which rows are wanted: all, those that need something, flights with or without their pilot's own words. */
export type Wanted = 'all' | 'open' | 'described' | 'plain';

export function isWanted({ state, described }: Row, wanted: Wanted): boolean {
  if (wanted === 'described') return described === true;
  if (wanted === 'plain') return described === false;
  return wanted === 'all' || state.open;
}

/** How many programmes are asked for at the same time. */
const atOnce = 4;

export async function readContestRows(contest: string, signal: AbortSignal): Promise<ContestRows> {
  const found = await readContest(contest, signal);
  const programmes = found.categories.flatMap((category) => category.programmes.map(({ id }) => id));
  const lists = await each(programmes, atOnce, async (id) => rowsOf(await readSequences(id, signal)));
  const categories = found.categories.map(({ id, name, programmes }) => ({
    id,
    name,
    programmes: programmes.flatMap((one) => lists.find(({ id }) => id === one.id) ?? []),
  }));
  return { id: found.id, name: found.name, categories };
}

function rowsOf({ programme, sequences }: SequenceList): ProgrammeRows {
  const unknown = programme.kind === 'unknown';
  return { ...programme, rows: sequences.map((one) => ({ ...one, state: stateOf(one, unknown) })) };
}

/** How many of all sequences wait for what. */
export interface Count {
  all: number;
  missing: number;
  unsigned: number;
}

export function count({ categories }: ContestRows): Count {
  const rows = categories.flatMap(({ programmes }) => programmes).flatMap((programme) => programme.rows);
  const missing = rows.filter(({ digest }) => digest === '').length;
  const signed = rows.filter(({ state }) => !state.open).length;
  return { all: rows.length, missing, unsigned: rows.length - missing - signed };
}
