/** What a device's own records and those it heard come to. */

import { isOver } from './desk';
import { flightsOf, sequenceKey, setupOf, type LineFlight, type Plan } from './plan';
import type { Author, Stored } from './records/record';
import { resolve } from './records/resolve';
import type { Flight } from './records/state';
import type { Kept } from './store/schema';

/** A flight on which something may still happen, with what the records say of it. */
export interface LiveFlight {
  flight: LineFlight;
  state: Flight | undefined;
}

/** Every record that the device knows of, each once: the service's word goes for whose it is. */
export function known(made: readonly Kept[], heard: readonly Stored[], author: Author): Stored[] {
  const ids = new Set(heard.map(({ id }) => id));
  const own = made.filter(({ id, state }) => !ids.has(id) && state !== 'refused');
  return [...heard, ...own.map(({ record }) => ({ ...record, author }))];
}

/**
 * The flights that are not over, in running order. The service says which are;
 * a flight of which it has not heard everything yet is decided here.
 */
export function liveFlights(plan: Plan, made: readonly Kept[], records: readonly Stored[]): LiveFlight[] {
  const unsent = new Set(made.filter(({ state }) => state === 'waiting').map(({ record }) => record.flight));
  const live = flightsOf(plan).filter(({ id, status }) => !isOver(status) || unsent.has(id));
  const ids = new Set(live.map(({ id }) => id));
  const about = records.filter(({ flight, kind }) => ids.has(flight) || kind === 'aside');
  const { flights } = resolve(setupOf(plan.contest.id, live), about);
  return live.map((flight, i) => ({ flight, state: flights[i] }));
}

/** One flight with what the records say of it, whether it is over or not. */
export function liveFlight(plan: Plan, flight: LineFlight, records: readonly Stored[]): LiveFlight {
  const about = records.filter((one) => one.flight === flight.id || one.kind === 'aside');
  const { flights } = resolve(setupOf(plan.contest.id, [flight]), about);
  return { flight, state: flights[0] };
}

/** What every sequence that is flown is kept under, each once. */
export const sequencesOf = (plan: Plan): string[] => [
  ...new Set(flightsOf(plan).flatMap(({ sequence }) => (sequence ? sequenceKey(sequence) : []))),
];
