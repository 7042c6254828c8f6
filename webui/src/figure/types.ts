/** The parts of the contract that sequences are made of, under their short names. */

import type { components } from '../lib/api';

type Schemas = components['schemas'];

export type WireItem = Schemas['SequenceItem'];
export type Limits = Schemas['Limits'];
export type CategoryLimits = Schemas['CategoryLimits'];
export type CheckedItem = Schemas['CheckedItem'];
export type Checked = Schemas['CheckedSequence'];
export type Finding = Schemas['Finding'];
export type Complaint = Schemas['PlacedText'];
export type Registered = Schemas['RegisteredSequence'];
export type SequenceState = Schemas['SequenceState'];
export type SequenceList = Schemas['SequenceList'];

/** What is flown, without whose it is. */
export type WireSheet = Pick<Schemas['SequenceQuestion'], 'items' | 'entry'>;
/** A sheet with what it is held against: the rules of a category, where one is named. */
export type Body = WireSheet & { category?: string };
