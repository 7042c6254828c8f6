/** Which flight the chief judge works on, and which come next. */

import { isOver } from '../desk';
import type { LiveFlight } from '../view';

const statusOf = ({ state }: LiveFlight): string => state?.status ?? '';

/** Called on and not over, in running order. */
export const onTheLine = (flights: readonly LiveFlight[]): LiveFlight[] =>
  flights.filter((one) => statusOf(one) !== '' && !isOver(statusOf(one)));

/** Not called yet, in running order: first those after the last that was called, then those left out before. */
export function toCall(flights: readonly LiveFlight[]): LiveFlight[] {
  const last = flights.findLastIndex((one) => statusOf(one) !== '');
  const open = (list: readonly LiveFlight[]) =>
    list.filter((one) => statusOf(one) === '' && !one.state?.status_conflict);
  return [...open(flights.slice(last + 1)), ...open(flights.slice(0, Math.max(last, 0)))];
}

/** The flight in the air, else one that was called, else one whose sheets are to be settled, else the next. */
export function presentFlight(flights: readonly LiveFlight[]): LiveFlight | undefined {
  const called = onTheLine(flights);
  const as = (status: string) => called.find((one) => statusOf(one) === status);
  return as('flying') ?? as('called') ?? called[0] ?? toCall(flights)[0];
}
