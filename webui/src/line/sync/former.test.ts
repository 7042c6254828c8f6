import 'fake-indexeddb/auto';
import { beforeEach, expect, it } from 'vitest';
import { Failure } from '../../lib/client';
import { Service } from '../../lib/fixtures/line';
import { haveEveryLock } from '../../lib/fixtures/plan';
import type { LineService, Sent } from '../service';
import type { Pairing } from '../store/schema';
import { newKey } from '../store/sign';
import { LineStore, type Draft } from '../store/store';
import { Former } from './former';

const uuid = () => crypto.randomUUID();
const [contest, flight, seat, other] = [uuid(), uuid(), uuid(), uuid()];

beforeEach(haveEveryLock);

/** A browser with a pairing, on which something was graded that is at the office, and a pairing after that. */
async function browser({ known = true, now = seat } = {}) {
  const [store, office] = [await LineStore.open(uuid()), new Service()];
  const pair = async (judge: string, paired_at: string): Promise<Pairing> => {
    const { key } = await newKey();
    const who = { device: uuid(), contest, role: 'judge' as const, judge, store: uuid() };
    const pairing = { ...who, paired_at, key, seq: 0, epoch: '', have: 0 };
    await store.pair(pairing);
    return pairing;
  };
  const former = await pair(seat, '2026-06-12T08:00:00Z');
  const devices = new Map([[former.device, former]]);
  const deliver = async ({ device, store: row, records }: Sent) => {
    const one = devices.get(device);
    const problem = '{"status":404,"type":"/api/v1/docs#not-found"}';
    if (!one) throw new Failure('refused', 404, problem);
    return office.deliver(row, { role: 'judge', seat: one.judge ?? '', device }, records);
  };
  const settle = (present: Pairing, epoch: string) =>
    new Former(store, present, { deliver } as unknown as LineService, () => {}).settle(
      new AbortController().signal,
      epoch,
    );
  await store.add(former.device, [gradeOf(1), gradeOf(2)]);
  const present = await pair(now, '2026-06-12T09:00:00Z');
  devices.set(present.device, present);
  await settle(present, office.epoch);
  if (!known) devices.delete(former.device);
  const waiting = () => new Former(store, present, {} as unknown as LineService, () => {}).waiting();
  return { store, office, former, present, settle, waiting, deliver };
}

const gradeOf = (item: number): Draft => ({
  ...{ id: uuid(), kind: 'grade', flight, judge: seat, item, grade: '7.5' },
  ...{ sequence: 'e'.repeat(64), replaces: [] },
});

const items = (office: Service) => office.records.map(({ item }) => item).sort();

it('sends what an earlier pairing left, and once more what a restored server lost', async () => {
  const { office, present, settle, waiting } = await browser();
  expect(items(office)).toEqual([1, 2]);
  office.restore();
  expect(office.records).toEqual([]);
  await settle(present, office.epoch);
  expect(items(office)).toEqual([1, 2]);
  expect(await waiting()).toBe(0);
});

it('gives what was made on a device that a restored server never knew to the next one of the seat', async () => {
  const { store, office, former, present, settle, waiting, deliver } = await browser({ known: false });
  office.restore();
  await store.add(present.device, [gradeOf(3)]);
  await settle(present, office.epoch);
  expect(await store.made(former.device)).toEqual([]);
  expect(await waiting()).toBe(0);
  const made = await store.made(present.device);
  expect(made.map(({ seq, record, state }) => [seq, record.seq, record.item, state])).toEqual([
    [1, 1, 3, 'waiting'],
    [2, 2, 1, 'waiting'],
    [3, 3, 2, 'waiting'],
  ]);
  await deliver({ ...present, records: made.map(({ record }) => record), unsent: 0 });
  expect(items(office)).toEqual([1, 2, 3]);
  await settle(present, office.epoch);
  expect(await store.made(present.device)).toHaveLength(3);
});

it('keeps what is of another seat, and says that it waits', async () => {
  const { store, office, former, present, settle, waiting } = await browser({ known: false, now: other });
  office.restore();
  await settle(present, office.epoch);
  expect(await store.made(former.device)).toHaveLength(2);
  expect(await waiting()).toBe(2);
});
