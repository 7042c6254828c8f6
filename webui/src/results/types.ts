/** The parts of the contract that the results pages show, under their short names. */

import type { components } from '../lib/api';

type Schemas = components['schemas'];

export type ContestSummary = Schemas['ContestSummary'];
export type Contest = Schemas['Contest'];
export type Category = Schemas['Category'];
export type Programme = Schemas['Programme'];
export type Certainty = Schemas['Certainty'];
export type MethodUsed = Schemas['MethodUsed'];
export type State = Schemas['FlightState'];
export type Flight = Schemas['FlightStanding'];
export type Standings = Schemas['ProgrammeResults'];
export type Overall = Schemas['OverallStanding'];
export type CategoryStandings = Schemas['CategoryResults'];
export type Cell = Schemas['SheetCell'];
export type Item = Schemas['SheetItem'];
export type SeatTotal = Schemas['SeatTotal'];
export type Sheet = Schemas['FlightSheet'];

/** What a sheet says of its score, live or published. */
export type Scored = Pick<Sheet, 'ranks' | 'penalties' | 'panel_score' | 'standard_error'> & {
  flight: Pick<Flight, 'score' | 'percent' | 'rank' | 'certainty'>;
};
