import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { FakeService, registered } from '../lib/fixtures/sequence';
import { Desk } from './desk.svelte';
import type { Registered, WireItem } from './types';

const path = '/api/v1/flights/f1/sequence';
const loop: WireItem = { kind: 'figure', k: 10, moves: [{ arc: 360 }] };
const signal = new AbortController().signal;
const now = new Date('2026-06-12T10:00:00Z');

let present: Registered;
let service: FakeService;
let put: (body: { items: WireItem[]; replaces: string; revision: number }) => unknown;

beforeEach(() => {
  localStorage.clear();
  present = registered({ items: [loop], digest: 'd1', revision: 4 });
  put = ({ items }) => (present = registered({ items, digest: 'd2', revision: 5 }));
  service = new FakeService({
    [`GET ${path}`]: () => present,
    [`PUT ${path}`]: (body: Parameters<typeof put>[0]) => put(body),
    [`POST ${path}/sign-off`]: ({ reason }: { reason: string }) => ({
      ...present,
      signed_off: { digest: present.digest, at: now.toISOString(), by: 'the office', reason },
    }),
  });
  vi.stubGlobal('fetch', service.fetch);
});
afterEach(() => {
  vi.unstubAllGlobals();
  localStorage.clear();
});

async function opened(): Promise<Desk> {
  const desk = new Desk({ kind: 'flight', id: 'f1' });
  await desk.open(signal);
  return desk;
}
const bodies = () => service.sent.filter(({ method }) => method !== 'GET').map(({ body }) => body);

describe('a draft', () => {
  it('is kept with every change and found by the next page', async () => {
    const desk = await opened();
    desk.editor.set({ k: '12' }, 'k');
    desk.keep(now);
    const next = await opened();
    expect(next.restored).toBe(true);
    expect(next.draftAt).toEqual(now);
    expect(next.editor.item?.k).toBe('12');
    expect(next.differs).toBe(true);
  });

  it('is kept although it says nothing yet that could be sent', async () => {
    const desk = await opened();
    desk.editor.set({ numbers: [{ number: '', k: '4' }] });
    desk.keep(now);
    expect((await opened()).editor.item?.numbers).toEqual([{ number: '', k: '4' }]);
  });

  it('goes when it is thrown away, and undo brings it back', async () => {
    const desk = await opened();
    desk.editor.set({ k: '12' });
    desk.keep(now);
    desk.discard();
    desk.keep(now);
    expect((await opened()).restored).toBe(false);
    desk.editor.undo();
    expect(desk.editor.item?.k).toBe('12');
  });

  it('that cannot be kept is said', async () => {
    const desk = await opened();
    vi.spyOn(Storage.prototype, 'setItem').mockImplementation(() => {
      throw new Error('full');
    });
    desk.editor.set({ k: '12' });
    desk.keep(now);
    expect(desk.unkept).toBe(true);
    vi.restoreAllMocks();
  });
});

describe('registering', () => {
  it('names what it takes the place of, and lets the draft go', async () => {
    const desk = await opened();
    desk.editor.set({ k: '12' });
    desk.keep(now);
    await desk.register();
    expect(bodies()).toEqual([
      { items: [{ ...loop, k: 12 }], entry: { inverted: false }, replaces: 'd1', revision: 4 },
    ]);
    expect([desk.done, desk.differs, desk.draftAt]).toEqual(['register', false, undefined]);
    expect((await opened()).restored).toBe(false);
  });

  it('shows what the service filled in, under the keys it had', async () => {
    const desk = await opened();
    desk.editor.set({ k: '', numbers: [{ number: '7.4.1.1', k: '' }] });
    put = ({ items }) =>
      (present = registered({ items: items.map((item) => ({ ...item, k: 9 })), digest: 'd2', revision: 5 }));
    const key = desk.editor.item?.key;
    await desk.register();
    expect([desk.editor.item?.k, desk.editor.item?.key, desk.differs]).toEqual(['9', key, false]);
  });

  it('sends nothing while something typed would be left out', async () => {
    const desk = await opened();
    desk.editor.set({ k: 'ten' });
    await desk.register();
    expect(bodies()).toEqual([]);
    expect(desk.complaints.map(({ place }) => place)).toEqual(['items[0].k']);
  });

  it('keeps what was written where the service refuses it', async () => {
    const desk = await opened();
    put = () => ({ status: 422, errors: [{ pointer: '/items/0/k', message: 'is too large' }] });
    desk.editor.set({ k: '9999' });
    await desk.register();
    expect(desk.complaints).toEqual([{ place: '/items/0/k', text: 'is too large' }]);
    expect(desk.editor.item?.k).toBe('9999');
  });

  it('keeps what was written where the service is away', async () => {
    const desk = await opened();
    desk.editor.set({ k: '12' });
    desk.keep(now);
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no network')));
    await desk.register();
    expect(desk.failure?.kind).toBe('away');
    expect(desk.editor.item?.k).toBe('12');
  });
});

describe('where somebody else registered meanwhile', () => {
  async function conflicted(): Promise<Desk> {
    const desk = await opened();
    desk.editor.set({ k: '12' });
    desk.keep(now);
    present = registered({ items: [{ ...loop, k: 20 }], digest: 'dx', revision: 9 });
    const answer = put;
    put = (body) => (body.replaces === present.digest ? answer(body) : { status: 409, detail: 'changed' });
    await desk.register();
    return desk;
  }

  it('nothing is written over', async () => {
    const desk = await conflicted();
    expect(desk.conflict?.digest).toBe('dx');
    expect(present.items[0]?.k).toBe(20);
    expect(desk.editor.item?.k).toBe('12');
  });

  it('one’s own goes in its place when that is said', async () => {
    const desk = await conflicted();
    await desk.mine();
    expect(bodies().at(-1)).toMatchObject({ replaces: 'dx', revision: 9 });
    expect([present.items[0]?.k, desk.conflict, desk.differs]).toEqual([12, undefined, false]);
  });

  it('the other is taken when that is said, and undo brings one’s own back', async () => {
    const desk = await conflicted();
    desk.theirs();
    expect([desk.editor.item?.k, desk.differs]).toEqual(['20', false]);
    desk.editor.undo();
    expect(desk.editor.item?.k).toBe('12');
  });
});

it('signs off the sequence that was seen, with the reason', async () => {
  const desk = await opened();
  await desk.signOff('agreed at the briefing');
  expect(bodies()).toEqual([{ digest: 'd1', revision: 4, reason: 'agreed at the briefing' }]);
  expect(desk.registered?.signed_off?.reason).toBe('agreed at the briefing');
});
