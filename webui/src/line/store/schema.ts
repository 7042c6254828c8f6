/** What a device keeps of the line, in one database of the browser. */

import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Fault } from '../records/check';
import type { LineRecord, Stored } from '../records/record';

export type Role = 'judge' | 'assistant' | 'chief' | 'announcer';

/** What a device was paired for; several follow one another in the life of a tablet. */
export interface Pairing {
  /** The pairing's id, which is the author of its records. */
  device: string;
  contest: string;
  role: Role;
  /** The judge whose seat it is; a judge's, and an assistant's where it has one. */
  judge?: string;
  paired_at: string;
  /** The id of this pairing's own row of records. */
  store: string;
  /** P-256; the browser never gives it out. */
  key: CryptoKey;
  /** Of the last record made; 0 for none. */
  seq: number;
  /** The server's, as of its last answer; "" before the first. */
  epoch: string;
  /** The highest seq up to which the server had every record, as of its last answer. */
  have: number;
}

/** A record made here. */
export interface Kept {
  device: string;
  seq: number;
  id: string;
  record: LineRecord;
  /** What the server said of it; nothing yet while it waits. */
  state: 'waiting' | 'stored' | 'refused';
  faults: Fault[];
}

/** A record made elsewhere, as the server told it. */
interface Heard {
  contest: string;
  id: string;
  record: Stored;
}

/** Anything else that must be there without a network: the plan, a sequence, a choice. */
interface Note {
  device: string;
  name: string;
  value: unknown;
}

interface Schema extends DBSchema {
  pairings: { key: string; value: Pairing };
  records: {
    key: [device: string, seq: number];
    value: Kept;
    indexes: { id: string; state: [device: string, state: Kept['state'], seq: number] };
  };
  heard: { key: [contest: string, id: string]; value: Heard };
  notes: { key: [device: string, name: string]; value: Note };
}

export type Database = IDBPDatabase<Schema>;

/** Opens the database, and makes it where there is none. */
export function openDatabase(name: string): Promise<Database> {
  return openDB<Schema>(name, 1, {
    upgrade(db) {
      db.createObjectStore('pairings', { keyPath: 'device' });
      const records = db.createObjectStore('records', { keyPath: ['device', 'seq'] });
      records.createIndex('id', 'id', { unique: true });
      records.createIndex('state', ['device', 'state', 'seq']);
      db.createObjectStore('heard', { keyPath: ['contest', 'id'] });
      db.createObjectStore('notes', { keyPath: ['device', 'name'] });
    },
    // A newer page waits for this one's connection: it is let go, and what is
    // done next on this page fails in words instead of being lost.
    blocking: (_had, _wants, event) => (event.target as IDBDatabase).close(),
  });
}
