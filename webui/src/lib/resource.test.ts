import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Failure } from './client';
import { Resource } from './resource.svelte';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A reading that the test answers by hand. */
function asked<T>() {
  const answers: { resolve: (value: T) => void; reject: (why: unknown) => void }[] = [];
  const read = vi.fn(() => new Promise<T>((resolve, reject) => answers.push({ resolve, reject })));
  return { read, last: () => answers.at(-1) };
}
const settle = (ms = 0) => vi.advanceTimersByTimeAsync(ms);

it('keeps what was read while reading again fails, and tries again by itself', async () => {
  const { read, last } = asked<string>();
  const page = new Resource(read);
  last()?.resolve('first');
  await settle();
  page.again();
  last()?.reject(new Failure('away', 0, 'no network'));
  await settle();
  expect([page.value, page.failure?.kind]).toEqual(['first', 'away']);
  await settle(2_000);
  last()?.resolve('second');
  await settle();
  expect([page.value, page.failure, page.readings]).toEqual(['second', undefined, 2]);
});

it('does not ask again for what is not there', async () => {
  const { read, last } = asked<string>();
  const page = new Resource(read);
  last()?.reject(new Failure('missing', 404, ''));
  await settle(120_000);
  expect([read.mock.calls.length, page.failure?.kind]).toEqual([1, 'missing']);
});

it('hears what is asked while reading once, afterwards', async () => {
  const { read, last } = asked<number>();
  const page = new Resource(read);
  page.again();
  page.again();
  expect(read).toHaveBeenCalledTimes(1);
  last()?.resolve(1);
  await settle();
  expect(read).toHaveBeenCalledTimes(2);
  last()?.resolve(2);
  await settle();
  expect([read.mock.calls.length, page.value]).toEqual([2, 2]);
});

it('says when reading takes over a second', async () => {
  const { read, last } = asked<number>();
  const page = new Resource(read);
  await settle(999);
  expect(page.slow).toBe(false);
  await settle(1);
  expect(page.slow).toBe(true);
  last()?.resolve(1);
  await settle();
  expect(page.slow).toBe(false);
});

it('takes nothing in after it was stopped', async () => {
  const { read, last } = asked<number>();
  const page = new Resource(read);
  page.stop();
  last()?.resolve(1);
  await settle(120_000);
  expect([page.value, read.mock.calls.length]).toEqual([undefined, 1]);
});
