/**
 * What a device made and heard. A record is here, on the disk as far as the
 * browser can promise it, before anything shows it as entered.
 */

import type { LineRecord, Stored } from '../records/record';
import { openDatabase, type Database, type Kept, type Pairing } from './schema';
import { sign } from './sign';

/** A record before it is numbered and signed. */
export type Draft = Omit<LineRecord, 'seq' | 'signature'>;

export interface Counts {
  waiting: number;
  refused: number;
}

/** How the browser is asked to write: through to the disk. */
const strictly = { durability: 'strict' } as const;

export class LineStore {
  private constructor(private readonly db: Database) {}

  static async open(name = 'halfpoint-line'): Promise<LineStore> {
    return new LineStore(await openDatabase(name));
  }

  close(): void {
    this.db.close();
  }

  /** Every pairing of this browser, the newest first. */
  async pairings(): Promise<Pairing[]> {
    const all = await this.db.getAll('pairings');
    return all.sort((a, b) => (a.paired_at < b.paired_at ? 1 : -1));
  }

  /** Keeps a pairing; one that is there already stays as it is. */
  async pair(pairing: Pairing): Promise<void> {
    const tx = this.db.transaction('pairings', 'readwrite', strictly);
    if (!(await tx.store.get(pairing.device))) await tx.store.put(pairing);
    await tx.done;
  }

  /** Signs, numbers and keeps records, all or none. */
  async add(device: string, drafts: readonly Draft[]): Promise<LineRecord[]> {
    const author = await this.db.get('pairings', device);
    if (!author) throw new Error('this device is not paired');
    // A transaction ends by itself while something else is waited for: what is
    // signed is signed before it begins.
    const signed = await Promise.all(drafts.map((draft) => signedDraft(author, draft)));
    const tx = this.db.transaction(['pairings', 'records'], 'readwrite', strictly);
    const pairing = (await tx.objectStore('pairings').get(device)) as Pairing;
    const records = signed.map((draft, i) => ({ ...draft, seq: pairing.seq + 1 + i }));
    const rows = records.map((record) => row(device, record));
    await Promise.all([
      ...rows.map((kept) => tx.objectStore('records').add(kept)),
      tx.objectStore('pairings').put({ ...pairing, seq: pairing.seq + rows.length }),
      tx.done,
    ]);
    return records;
  }

  /**
   * What one pairing made goes over to another one, numbered and signed as its own,
   * to be sent again: all or nothing. What was refused stays where it is.
   */
  async carry(from: string, to: string): Promise<void> {
    const author = await this.db.get('pairings', to);
    if (!author) throw new Error('this device is not paired');
    const all = (await this.made(from)).filter(({ state }) => state !== 'refused');
    const signed = await Promise.all(all.map(({ record }) => signedDraft(author, record)));
    const tx = this.transaction();
    const [pairings, records] = [tx.objectStore('pairings'), tx.objectStore('records')];
    const pairing = (await pairings.get(to)) as Pairing;
    await Promise.all([
      // First they go: an id is there once.
      ...all.map(({ seq }) => records.delete([from, seq])),
      ...signed.map((record, i) => records.add(row(to, { ...record, seq: pairing.seq + 1 + i }))),
      pairings.put({ ...pairing, seq: pairing.seq + signed.length }),
      tx.done,
    ]);
  }

  /** All records made under a pairing, in order. */
  made(device: string): Promise<Kept[]> {
    return this.db.getAll('records', IDBKeyRange.bound([device], [device, []]));
  }

  /** The first records that the server has not answered yet. */
  waiting(device: string, most: number): Promise<Kept[]> {
    return this.db.getAllFromIndex('records', 'state', range(device, 'waiting'), most);
  }

  async counts(device: string): Promise<Counts> {
    const count = (state: Kept['state']) => this.db.countFromIndex('records', 'state', range(device, state));
    const [waiting, refused] = await Promise.all([count('waiting'), count('refused')]);
    return { waiting, refused };
  }

  /** Runs one transaction over the pairing and its records. */
  transaction(): ReturnType<typeof transaction> {
    return transaction(this.db);
  }

  /** Keeps records made elsewhere, in place of what was heard of them before. */
  async hear(contest: string, records: readonly Stored[]): Promise<void> {
    const tx = this.db.transaction('heard', 'readwrite');
    await Promise.all([
      ...records.map((record) => tx.store.put({ contest, id: record.id, record })),
      tx.done,
    ]);
  }

  /** Everything heard of a contest. */
  async heard(contest: string): Promise<Stored[]> {
    const all = await this.db.getAll('heard', IDBKeyRange.bound([contest], [contest, []]));
    return all.map(({ record }) => record);
  }

  /** Keeps something of a pairing's under a name. */
  async note(device: string, name: string, value: unknown): Promise<void> {
    await this.db.put('notes', { device, name, value });
  }

  /** What was kept under a name; nothing where nothing was. */
  async noted<T>(device: string, name: string): Promise<T | undefined> {
    const note = await this.db.get('notes', [device, name]);
    return note?.value as T | undefined;
  }
}

function transaction(db: Database) {
  return db.transaction(['pairings', 'records'], 'readwrite', strictly);
}

const range = (device: string, state: Kept['state']) =>
  IDBKeyRange.bound([device, state], [device, state, []]);

const row = (device: string, record: LineRecord): Kept => ({
  device,
  seq: record.seq,
  id: record.id,
  record,
  state: 'waiting',
  faults: [],
});

async function signedDraft({ key, contest }: Pairing, draft: Draft): Promise<Draft & LineRecord> {
  const record = { ...draft, seq: 0 };
  return { ...record, signature: await sign(key, contest, record) };
}
