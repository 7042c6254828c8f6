import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { below, pick, seeded, type Chance } from '../../lib/fixtures/chance';
import { Service } from '../../lib/fixtures/line';
import { Network } from '../../lib/fixtures/network';
import { sheetDigest } from '../records/digest';
import type { Author, LineRecord } from '../records/record';
import { resolve } from '../records/resolve';
import { toSign } from '../records/seen';
import type { Setup } from '../records/state';
import type { Pairing } from '../store/schema';
import { newKey } from '../store/sign';
import { LineStore, type Draft } from '../store/store';
import { Delivery, type Send } from './delivery';

const uuid = () => crypto.randomUUID();
const [contest, flight, seat] = [uuid(), uuid(), uuid()];
const sequence = 'e'.repeat(64);
const setup: Setup = { contest, flights: [{ flight, sequence, items: 4, panel: [seat] }] };

const open: LineStore[] = [];
afterEach(() => {
  for (const store of open.splice(0)) store.close();
});

/** A tablet as the tests use one: what it keeps, and its line to the service. */
class Tablet {
  store!: LineStore;
  device = uuid();
  row = uuid();
  made = new Set<string>();
  /** Ids of records that the service must refuse. */
  bad = new Set<string>();
  #name = uuid();
  #delivery!: Delivery;

  constructor(
    private readonly service: Service,
    private readonly network: Network,
  ) {}

  get author(): Author {
    return { role: 'judge', seat, device: this.device };
  }

  async start(): Promise<this> {
    this.store = await LineStore.open(this.#name);
    open.push(this.store);
    const { key } = await newKey();
    await this.store.pair(pairing(this.device, this.row, key));
    const send: Send = (records) =>
      this.network.carry(async () => this.service.deliver(this.row, this.author, records));
    this.#delivery = new Delivery(this.store, this.device, send);
    return this;
  }

  /** Everything that was not written to the disk is gone. */
  async crash(): Promise<void> {
    this.store.close();
    await this.start();
  }

  step = () => this.#delivery.step(new AbortController().signal);

  async add(draft: Draft): Promise<void> {
    const [record] = await this.store.add(this.device, [draft]);
    if (record) this.made.add(record.id);
  }

  async records(): Promise<LineRecord[]> {
    return (await this.store.made(this.device)).map(({ record }) => record);
  }

  /** The state as the tablet shows it. */
  async shown() {
    const own = (await this.records()).map((record) => ({ ...record, author: this.author }));
    return resolve(setup, [...own, ...(await this.store.heard(contest))]);
  }
}

function pairing(device: string, store: string, key: CryptoKey): Pairing {
  const never = '2026-06-12T08:00:00Z';
  return {
    device,
    contest,
    role: 'judge',
    judge: seat,
    paired_at: never,
    store,
    key,
    seq: 0,
    epoch: '',
    have: 0,
  };
}

const gradeOf = (item: number, grade: string, replaces: string[] = []): Draft => ({
  id: uuid(),
  kind: 'grade',
  flight,
  judge: seat,
  item,
  grade,
  sequence,
  replaces,
});

async function grade(tablet: Tablet, chance: Chance): Promise<void> {
  const item = 1 + below(chance, 4);
  const cell = (await tablet.shown()).flights[0]?.attempts[0]?.sheets[0]?.cells[item - 1];
  await tablet.add(gradeOf(item, pick(chance, ['7.0', '7.5', 'HZ', 'A', '']), cell?.heads));
}

async function signSheet(tablet: Tablet): Promise<void> {
  const sheet = (await tablet.shown()).flights[0]?.attempts[0]?.sheets[0];
  if (!sheet) return;
  const { covers, entries, ready } = toSign(sheet);
  if (!ready || sheet.signature.state === 'signed') return;
  const digest = sheetDigest(contest, flight, seat, sequence, entries);
  const draft = { id: uuid(), kind: 'sign', flight, judge: seat } as const;
  await tablet.add({ ...draft, covers, digest, after: sheet.reopens });
}

/** A record that the service refuses, as a fault in this program could make one. */
async function spoil(tablet: Tablet): Promise<void> {
  const draft = gradeOf(1, '7.3');
  await tablet.add(draft);
  tablet.bad.add(draft.id);
}

/** One thing of all that can happen. */
async function happen(tablet: Tablet, service: Service, chance: Chance): Promise<void> {
  const n = below(chance, 100);
  if (n < 38) return grade(tablet, chance);
  if (n < 46) return signSheet(tablet);
  if (n < 48) return spoil(tablet);
  if (n < 54) return tablet.crash();
  if (n < 58) return service.backUp();
  if (n < 60) return service.restore();
  if (n < 68) return tablet.store.hear(contest, service.records);
  if (n < 72) return interrupted(tablet, chance);
  await tablet.step();
}

/** The page dies while it writes or while an answer is noted. */
async function interrupted(tablet: Tablet, chance: Chance): Promise<void> {
  const doing = chance() < 0.5 ? grade(tablet, chance) : tablet.step();
  for (let n = below(chance, 6); n > 0; n--) await Promise.resolve();
  tablet.store.close();
  await doing.catch(() => undefined);
  await tablet.start();
}

async function drain(tablet: Tablet): Promise<void> {
  while ((await tablet.step()) !== 'resting');
}

async function play(seed: number, steps: number) {
  const chance = seeded(seed);
  const [service, network] = [new Service(), new Network(chance)];
  const tablets = [
    await new Tablet(service, network).start(),
    await new Tablet(service, network).start(),
  ] as const;
  for (let n = 0; n < steps; n++) await happen(pick(chance, tablets), service, chance);
  await network.heal();
  return { service, tablets };
}

describe('a bad network', () => {
  for (let seed = 1; seed <= 6; seed++) {
    it(`loses nothing that was recorded, and doubles nothing (${seed})`, { timeout: 60_000 }, async () => {
      const { service, tablets } = await play(seed, 350);
      // A new record shows the epoch to a tablet that had nothing left to send.
      for (const tablet of tablets) {
        await tablet.add(gradeOf(1, '6.0'));
        await drain(tablet);
      }
      const there = service.records;
      const all = [];
      for (const tablet of tablets) {
        const kept = await tablet.records();
        const ids = new Set(kept.map(({ id }) => id));
        for (const id of tablet.made) expect(ids.has(id), 'what was entered is kept').toBe(true);
        expect(kept.map(({ seq }) => seq)).toEqual(kept.map((_, i) => i + 1));
        const good = kept.filter(({ id }) => !tablet.bad.has(id));
        const atOffice = there.filter(({ author }) => author.device === tablet.device);
        expect(atOffice.map(({ id }) => id).sort()).toEqual(good.map(({ id }) => id).sort());
        expect(await tablet.store.counts(tablet.device)).toEqual({ waiting: 0, refused: tablet.bad.size });
        all.push(...good.map((record) => ({ ...record, author: tablet.author })));
      }
      expect(resolve(setup, there)).toEqual(resolve(setup, all));
    });
  }
});

describe('a delivery', () => {
  const good = () => Object.assign(new Network(seeded(1)), { good: true });

  it('is in the order of the records, a hundred at a time', async () => {
    const service = new Service();
    const tablet = await new Tablet(service, good()).start();
    const drafts = Array.from({ length: 250 }, (_, i) => gradeOf((i % 4) + 1, '8.0'));
    await tablet.store.add(tablet.device, drafts);
    await tablet.step();
    expect(service.records.map(({ seq }) => seq)).toEqual(Array.from({ length: 100 }, (_, i) => i + 1));
    await drain(tablet);
    expect(service.records).toHaveLength(250);
  });

  it('goes again from where a restored server ends', async () => {
    const service = new Service();
    const tablet = await new Tablet(service, good()).start();
    await tablet.add(gradeOf(1, '8.0'));
    await drain(tablet);
    service.backUp();
    await tablet.add(gradeOf(2, '8.0'));
    await tablet.add(gradeOf(3, '8.0'));
    await drain(tablet);
    service.restore();
    await tablet.add(gradeOf(4, '8.0'));
    await tablet.step();
    expect(await tablet.store.counts(tablet.device)).toEqual({ waiting: 2, refused: 0 });
    await drain(tablet);
    expect(service.records.map(({ item }) => item).sort()).toEqual([1, 2, 3, 4]);
  });

  it('rests when all is there, and works again when it is woken', async () => {
    const service = new Service();
    const tablet = await new Tablet(service, good()).start();
    const [states, stop] = [[] as string[], new AbortController()];
    let resting!: () => void;
    const rests = () => new Promise<void>((resolve) => (resting = resolve));
    const send: Send = async (records) => service.deliver(tablet.row, tablet.author, records);
    const delivery = new Delivery(tablet.store, tablet.device, send, (state) => {
      states.push(state);
      if (state === 'resting') resting();
    });
    let rested = rests();
    const work = delivery.work(stop.signal);
    await rested;
    await tablet.add(gradeOf(1, '8.0'));
    rested = rests();
    delivery.wake();
    await rested;
    expect(service.records).toHaveLength(1);
    expect(states).toEqual(['resting', 'sending', 'resting']);
    stop.abort();
    await work;
  });

  it('tries again after a failure, later each time', async () => {
    const service = new Service();
    const tablet = await new Tablet(service, good()).start();
    await tablet.add(gradeOf(1, '8.0'));
    const [waits, stop] = [[] as number[], new AbortController()];
    let left = 3;
    const send: Send = async (records) => {
      if (left-- > 0) throw new Error('away');
      return service.deliver(tablet.row, tablet.author, records);
    };
    const tell = (state: string) => state === 'resting' && stop.abort();
    const wait = (n: number) => {
      waits.push(n);
      return 0;
    };
    await new Delivery(tablet.store, tablet.device, send, tell, wait).work(stop.signal);
    expect(waits).toEqual([0, 1, 2]);
    expect(service.records).toHaveLength(1);
  });
});
