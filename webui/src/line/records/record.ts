/**
 * What is done on the judging line, as immutable records. The state of flights
 * and sheets is a pure function of the set of records (`resolve`): the order in
 * which they come, repetition and clocks decide nothing. The service has the
 * same function; testdata/line holds both to the same answers.
 */

export type Kind = 'grade' | 'sign' | 'reopen' | 'absent' | 'ruling' | 'penalty' | 'status' | 'aside';

export type Wind = 'left' | 'right';

/** A kind of penalty with how often it occurred and the points for each occurrence. */
export interface Penalty {
  kind: string;
  count: number;
  points: number;
}

/** One thing done on the line, as its device wrote it. `check` says which fields each kind needs. */
export interface LineRecord {
  /** Counts the records of one device's store from 1; tells what is missing, orders nothing. */
  seq: number;
  /** A UUID in lower case, made by the device. */
  id: string;
  kind: Kind;
  flight: string;
  /** From 1; left out is 1. */
  attempt?: number;
  /** The seat: the judge whose chair on the panel it is. */
  judge?: string;
  /** The person in the seat where that is not the seat's own judge. */
  by?: string;
  /** From 1; overall marks are items too. */
  item?: number;
  /** "0.0" to "10.0" in halves, "HZ", "PZ" or "A"; "" takes the grade back. */
  grade?: string;
  /** At most 500 characters in Unicode's form NFC. */
  remark?: string;
  /** The digest of the sequence as it was shown. */
  sequence?: string;
  /** Records of the same cell that it takes the place of. */
  replaces?: string[];
  /** Records that an official takes over. */
  adopts?: string[];
  /** What a signature stands for, a closing has seen, or is set aside. */
  covers?: string[];
  /** The reopenings that a signature knows. */
  after?: string[];
  digest?: string;
  ruling?: string;
  penalty?: Penalty;
  absent?: boolean;
  status?: string;
  /** The side the wind blows to, seen from the line. */
  wind?: string;
  reason?: string;
  /** RFC 3339 by the device's clock; shown, and decides nothing. */
  entered_at?: string;
  /** The device's own, over everything else. */
  signature?: string;
}

/** Who made a record: it stands beside the record and comes from whoever stored it. */
export interface Author {
  role: string;
  /** The judge whose seat the device was paired for. */
  seat?: string;
  device?: string;
  /** The device had been withdrawn when the record was stored. */
  withdrawn?: boolean;
}

export interface Stored extends LineRecord {
  author: Author;
}

export const attemptOf = (record: LineRecord): number => Math.max(record.attempt ?? 1, 1);

/** May act for others on the line. */
export const isOfficial = ({ role }: Author): boolean => ['chief', 'office', 'director'].includes(role);

/** An official made the record and said why. */
export const decides = (record: Stored): boolean => isOfficial(record.author) && Boolean(record.reason);

/** Compares two texts by their characters, as the service does: no locale, no UTF-16. */
export function compareText(a: string, b: string): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const difference = (a.codePointAt(i) ?? 0) - (b.codePointAt(i) ?? 0);
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
}
