import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { mara, whoIs } from './fixtures/who';
import { me, type WhoIs } from './me.svelte';

const contest = (id: string) => ({ id, name: id });
const who = (rest: Partial<WhoIs> = {}) =>
  whoIs({
    roles: [
      { contest: contest('c1'), role: 'office' },
      { contest: contest('c2'), role: 'pilot' },
    ],
    ...rest,
  });

let asked: number;

beforeEach(() => {
  asked = 0;
  me.isNobody();
  vi.stubGlobal('fetch', async () => {
    asked++;
    return Response.json(who());
  });
});
afterEach(() => {
  me.isNobody();
  vi.unstubAllGlobals();
});

it('does not ask the service about whoever never signed in here', async () => {
  await me.start();
  expect(asked).toBe(0);
  expect(me.name).toBe('');
});

it('keeps the name to be shown at once, and asks about the rest', async () => {
  me.is(who());
  me.known = undefined; // as after a reload
  expect(me.name).toBe('Mara Quist');
  expect(me.isOffice()).toBe(false);
  await Promise.all([me.start(), me.start()]);
  expect(asked).toBe(1);
  expect(me.isOffice('c1')).toBe(true);
});

it('forgets whom the service does not know any more, and nobody when it is away', async () => {
  me.is(who());
  vi.stubGlobal('fetch', () => Promise.reject(new TypeError('away')));
  await me.ask();
  expect(me.name).toBe('Mara Quist');
  vi.stubGlobal('fetch', async () => new Response(null, { status: 401 }));
  await me.ask();
  expect(me.name).toBe('');
});

it('knows a role in the contest where it is held', () => {
  me.is(who());
  expect(me.isOffice('c1')).toBe(true);
  expect(me.isOffice('c2')).toBe(false);
  expect(me.has(['pilot'])).toBe(true);
  me.is(who({ roles: [], account: { ...mara, owner: true } }));
  expect(me.isOffice('c2')).toBe(true);
});
