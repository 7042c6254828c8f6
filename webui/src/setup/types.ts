/** A set-up as the service gives it, and its lists by their names. */

import type { components } from '../lib/api';

type Schemas = components['schemas'];
export type Setup = Schemas['Setup'];
export type SetupChange = Schemas['SetupChange'];
export type SetupTable = Schemas['SetupTable'];
export type NewContest = Schemas['NewContest'];
export type ContestCopy = Schemas['ContestCopy'];
export type Method = Schemas['MethodOptions'];
export type Penalty = Schemas['SetupPenalty'];
export type Official = Schemas['SetupOfficial'];
export type Pilot = Schemas['SetupPilot'];
export type Category = Schemas['SetupCategory'];
export type Entry = Schemas['SetupEntry'];
export type Programme = Schemas['SetupProgramme'];

/** What the contest says of itself is taken for a list of one row. */
type ContestRow = Schemas['SetupContest'] & { id: string; position: number };

export interface Lists {
  contest: ContestRow;
  penalties: Penalty;
  officials: Official;
  pilots: Pilot;
  categories: Category;
  entries: Entry;
  programmes: Programme;
}
export type ListName = keyof Lists;

export const listNames: ListName[] = [
  'contest',
  'penalties',
  'officials',
  'pilots',
  'categories',
  'entries',
  'programmes',
];

/** What every row has. */
export interface Row {
  id: string;
  revision: number;
  position: number;
}

/** What is wrong with a field of a row; of the whole row, or the whole list, where they are empty. */
export interface Complaint {
  list: ListName | '';
  id: string;
  field: string;
  text: string;
}
