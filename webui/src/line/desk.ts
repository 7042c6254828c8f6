/** One seat's work on one flight, from what the device knows. */

import type { Item, LineFlight } from './plan';
import type { Attempt, Flight, Sheet } from './records/state';

export interface Desk {
  flight: LineFlight;
  /** As the records say. */
  state: Flight;
  /** The attempt that is graded. */
  attempt: number;
  sheet: Sheet;
}

/** The attempt that counts, and the first where that is undecided. */
export const countingOf = ({ counting, attempts }: Flight): Attempt | undefined =>
  attempts.find(({ attempt }) => attempt === (counting || 1));

/** A seat's work on a flight; nothing where the seat is not on its panel or there is no sequence yet. */
export function deskOf(flight: LineFlight, state: Flight | undefined, judge: string): Desk | undefined {
  const attempt = state && countingOf(state);
  const sheet = attempt?.sheets.find((one) => one.judge === judge);
  if (!state || !attempt || !sheet || !flight.sequence) return undefined;
  return { flight, state, attempt: attempt.attempt, sheet };
}

const onTheLine = ['called', 'flying', 'landed', 'interrupted'];

/** Nothing more is expected of the seat. */
export const isDone = ({ state, sheet }: Desk): boolean =>
  sheet.absent || sheet.signature.state === 'signed' || isOver(state.status);

/** Nothing more is expected of a flight of this status. */
export const isOver = (status: string): boolean =>
  ['closed', 'not-flown', 'withdrawn', 'disqualified'].includes(status);

const isBegun = ({ sheet }: Desk): boolean => sheet.cells.some(({ history }) => history.length > 0);

/**
 * The flight to grade now: the one chosen here while it is not done, else one
 * that was begun, else the one that was called on last. A seat never leaves a
 * sheet that it has begun because another flight was called.
 */
export function presentDesk(desks: readonly Desk[], chosen: string | undefined): Desk | undefined {
  const open = desks.filter((desk) => !isDone(desk));
  const called = open.filter(({ state }) => onTheLine.includes(state.status));
  const begun = (list: Desk[]) =>
    list.find((desk) => isBegun(desk) && desk.sheet.signature.state !== 'reopened');
  return (
    open.find(({ flight }) => flight.id === chosen) ??
    begun(called) ??
    begun(open) ??
    called.find(({ state }) => state.status === 'called' || state.status === 'flying') ??
    called[0]
  );
}

/** The flights that come after the present one, or after the last that was begun. */
export function comingDesks(desks: readonly Desk[], present: Desk | undefined, most = 3): Desk[] {
  const touched = (desk: Desk) => desk === present || isDone(desk) || isBegun(desk);
  const after = present ? desks.indexOf(present) : desks.findLastIndex(touched);
  return desks
    .slice(after + 1)
    .filter((desk) => !touched(desk))
    .slice(0, most);
}

/** The first item without a grade after an item, then from the first on; nothing where none is empty. */
export function nextEmpty({ cells }: Sheet, after: number): number | undefined {
  const empty = cells.filter(({ grade }) => grade === '').map(({ item }) => item);
  return empty.find((item) => item > after) ?? empty[0];
}

/** The figures and marks that the cells are for, by number. */
export function itemOf(items: readonly Item[], number: number): Item | undefined {
  return items.find((item) => item.number === number);
}
