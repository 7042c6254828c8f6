import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { LineRecord } from '../records/record';
import { recordText } from '../records/signed';
import type { Pairing } from './schema';
import { newKey, sign } from './sign';
import { LineStore, type Draft } from './store';

interface Signed {
  contest: string;
  public_key: string;
  records: { name: string; record: LineRecord; text: string }[];
}

const signed = JSON.parse(readFileSync('../testdata/line/signed.json', 'utf8')) as Signed;

async function verify(publicKey: string, contest: string, record: LineRecord): Promise<boolean> {
  const bytes = (text: string) => Uint8Array.from(Buffer.from(text, 'base64url'));
  const curve = { name: 'ECDSA', namedCurve: 'P-256' };
  const key = await crypto.subtle.importKey('raw', bytes(publicKey), curve, false, ['verify']);
  const text = new TextEncoder().encode(recordText(contest, record));
  return crypto.subtle.verify({ ...curve, hash: 'SHA-256' }, key, bytes(record.signature ?? ''), text);
}

it('signs the text that the service reads', async () => {
  const { contest, public_key, records } = signed;
  expect(records.length).toBeGreaterThan(8);
  for (const { name, record, text } of records) {
    expect(recordText(contest, record), name).toBe(text);
    expect(await verify(public_key, contest, record), name).toBe(true);
  }
});

it('signs with a key that the browser does not give out', async () => {
  const { key, publicKey } = await newKey();
  const [first] = signed.records;
  if (!first) throw new Error('no record');
  const record = { ...first.record, signature: await sign(key, 'C', first.record) };
  expect(await verify(publicKey, 'C', record)).toBe(true);
  expect(await verify(publicKey, 'D', record)).toBe(false);
  await expect(crypto.subtle.exportKey('pkcs8', key)).rejects.toThrow();
});

const draft = (id: string): Draft => ({ id, kind: 'grade', flight: 'F', judge: 'J', item: 1, grade: '7.5' });

async function paired(name: string, device: string, paired_at = '2026-06-12T08:00:00Z') {
  const store = await LineStore.open(name);
  const { key, publicKey } = await newKey();
  const pairing: Pairing = {
    device,
    contest: 'C',
    role: 'judge',
    judge: 'J',
    paired_at,
    store: `${device}-row`,
    key,
    seq: 0,
    epoch: '',
    have: 0,
  };
  await store.pair(pairing);
  return { store, pairing, publicKey };
}

it('keeps records in order, signed, through a restart', async () => {
  const { store, publicKey } = await paired('restart', 'D1');
  await store.add('D1', [draft('a'), draft('b')]);
  await store.add('D1', [draft('c')]);
  store.close();
  const again = await LineStore.open('restart');
  const made = await again.made('D1');
  expect(made.map(({ record: { id, seq } }) => [id, seq])).toEqual([
    ['a', 1],
    ['b', 2],
    ['c', 3],
  ]);
  for (const { record } of made) expect(await verify(publicKey, 'C', record)).toBe(true);
  expect(await again.counts('D1')).toEqual({ waiting: 3, refused: 0 });
  again.close();
});

it('keeps all of what is recorded at once, or nothing', async () => {
  const { store } = await paired('at once', 'D1');
  await store.add('D1', [draft('a')]);
  await expect(store.add('D1', [draft('b'), draft('a')])).rejects.toThrow();
  await store.add('D1', [draft('c')]);
  const made = await store.made('D1');
  expect(made.map(({ id, seq }) => [id, seq])).toEqual([
    ['a', 1],
    ['c', 2],
  ]);
  store.close();
});

it('keeps the row of each pairing apart', async () => {
  const { store } = await paired('two', 'D1');
  store.close();
  const second = await paired('two', 'D2', '2026-06-12T09:00:00Z');
  await second.store.add('D1', [draft('a')]);
  await second.store.add('D2', [draft('b'), draft('c')]);
  expect((await second.store.pairings()).map(({ device, seq }) => [device, seq])).toEqual([
    ['D2', 2],
    ['D1', 1],
  ]);
  expect((await second.store.waiting('D2', 1)).map(({ id }) => id)).toEqual(['b']);
  await second.store.pair({ ...second.pairing, seq: 0 });
  expect((await second.store.pairings())[0]?.seq).toBe(2);
  second.store.close();
});

it('records nothing for a device that is not paired', async () => {
  const { store } = await paired('unpaired', 'D1');
  await expect(store.add('D9', [draft('a')])).rejects.toThrow('not paired');
  store.close();
});

it('keeps what it hears, and notes', async () => {
  const { store } = await paired('heard', 'D1');
  const record = { ...draft('a'), seq: 1, author: { role: 'judge', seat: 'J' } };
  await store.hear('C', [record]);
  await store.hear('C', [{ ...record, author: { ...record.author, withdrawn: true } }]);
  expect(await store.heard('C')).toEqual([{ ...record, author: { ...record.author, withdrawn: true } }]);
  expect(await store.heard('D')).toEqual([]);
  expect(await store.noted('D1', 'plan')).toBeUndefined();
  await store.note('D1', 'plan', { flights: 3 });
  expect(await store.noted('D1', 'plan')).toEqual({ flights: 3 });
  store.close();
});
