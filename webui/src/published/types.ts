/** The parts of the contract that the pages of published results show, under their short names. */

import type { components } from '../lib/api';

type Schemas = components['schemas'];

export type Publication = Schemas['Publication'];
export type Summary = Schemas['PublicationSummary'];
export type Place = Schemas['PublishedPlace'];
export type Change = Schemas['PublishedChange'];
export type Changes = Schemas['PublishedChanges'];
export type Sheets = Schemas['PublishedSheets'];
export type Sheet = Schemas['PublishedSheet'];
