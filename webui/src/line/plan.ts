/** What the service tells a device, so that it can work without a network. */

import type { components } from '../lib/api';
import { runs } from './records/pool';
import type { Stored } from './records/record';
import type { FlightSetup, Setup } from './records/state';

type Schemas = components['schemas'];

export type Named = Schemas['Named'];
export type Item = Schemas['Item'];
export type PlannedDevice = Schemas['Device'];
export type PlannedSequence = Schemas['LineSequence'];
export type PlannedFlight = Schemas['LineFlight'];
export type PlannedProgramme = Schemas['LineProgramme'];
export type PenaltyKind = Schemas['LinePenalty'];

/** All that a device needs to work without a network. */
export type Plan = Omit<Schemas['LinePlan'], 'records'> & { records: Stored[] };

/** A flight with where it belongs. */
export interface LineFlight extends PlannedFlight {
  programme: PlannedProgramme;
}

/** Every flight, programme by programme in running order. */
export const flightsOf = (plan: Plan): LineFlight[] =>
  plan.programmes.flatMap((programme) => programme.flights.map((flight) => ({ ...flight, programme })));

/** What the records of flights are read against. */
export const setupOf = (contest: string, flights: readonly LineFlight[]): Setup => ({
  contest,
  flights: flights.map(flightSetup),
});

const flightSetup = ({ id, sequence, programme }: LineFlight): FlightSetup => ({
  flight: id,
  sequence: sequence?.digest ?? '',
  items: sequence?.items ?? 0,
  panel: programme.panel.map(({ judge }) => judge.id),
});

/** The number of a judge's seat on a panel; nothing where they have none. */
export const seatOf = (programme: PlannedProgramme, judge: string | undefined): number | undefined =>
  programme.panel.find((seat) => seat.judge.id === judge)?.number;

/** What a sequence is kept under: another revision has other words or numbers. */
export const sequenceKey = ({ id, revision }: PlannedSequence): string => `sequence ${id} ${revision}`;

/** Flights that follow one another, cut into their programmes. */
export function byProgramme(flights: readonly LineFlight[]) {
  return runs(flights, ({ programme }) => programme.id).flatMap((run) => {
    const programme = run[0]?.programme;
    return programme ? [{ programme, flights: run }] : [];
  });
}
