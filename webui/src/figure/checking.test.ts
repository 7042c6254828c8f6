import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Failure } from '../lib/client';
import { checked } from '../lib/fixtures/sequence';
import { Checking, Refused, type Ask } from './checking.svelte';
import { newFigure, type Item, type Sheet } from './sheet';
import type { Body } from './types';

const sheet = (...items: Partial<Item>[]): Sheet => ({
  items: items.map((item) => ({ ...newFigure(), ...item })),
  inverted: false,
});
const numbered = [{ number: '1.1.1.1', k: '' }];
const soon = () => vi.advanceTimersByTimeAsync(50);

let bodies: Body[];
let checking: Checking;
const asking = (answer: (body: Body) => ReturnType<Ask>) => {
  checking = new Checking((body) => {
    bodies.push(body);
    return answer(body);
  });
};

beforeEach(() => {
  vi.useFakeTimers();
  bodies = [];
});
afterEach(() => {
  checking.stop();
  vi.useRealTimers();
});

describe('the service', () => {
  it('is asked once for taps that follow closely, about the last of them', async () => {
    asking(async ({ items }) => checked(items));
    for (const k of ['1', '2', '3']) checking.about(sheet({ k }), undefined);
    await soon();
    expect(bodies.map(({ items }) => items[0]?.k)).toEqual([3]);
    expect(checking.answer?.totalK).toBe(3);
  });

  it('is asked about the latest after an answer, and never twice at the same time', async () => {
    let answer: () => void = () => {};
    asking(({ items }) => new Promise((resolve) => (answer = () => resolve(checked(items)))));
    checking.about(sheet({ k: '1' }), undefined);
    await soon();
    checking.about(sheet({ k: '2' }), undefined);
    checking.about(sheet({ k: '3' }), undefined);
    await soon();
    expect(bodies).toHaveLength(1);
    answer();
    await soon();
    expect(bodies.map(({ items }) => items[0]?.k)).toEqual([1, 3]);
  });

  it('is asked again by itself when it was away, and what it said last stays', async () => {
    let away = false;
    asking(async ({ items }) => {
      if (away) throw new Failure('away', 0, '');
      return checked(items);
    });
    checking.about(sheet({ k: '1' }), undefined);
    await soon();
    away = true;
    checking.about(sheet({ k: '2' }), undefined);
    await soon();
    expect(checking.failure?.kind).toBe('away');
    expect(checking.answer?.totalK).toBe(1);
    away = false;
    await vi.advanceTimersByTimeAsync(2_100);
    expect(checking.failure).toBeUndefined();
    expect(checking.answer?.totalK).toBe(2);
  });
});

describe('a K that is not typed', () => {
  it('counts for nothing where nobody can know it, and the figure is checked all the same', async () => {
    asking(async ({ items }) => checked(items));
    checking.about(sheet({ k: '14' }, {}), undefined);
    await soon();
    expect(bodies[0]?.items.map(({ k }) => k)).toEqual([14, 0.1]);
    expect(checking.answer?.totalK).toBe(14);
    expect(checking.answer?.clean).toBe(false);
    expect([...(checking.answer?.k.values() ?? [])]).toEqual([14]);
  });

  it('is filled in from the numbers of the category’s organiser', async () => {
    asking(async ({ items }) => checked(items.map((item) => ({ ...item, k: item.k ?? 7 }))));
    checking.about(sheet({ numbers: numbered }), 'k1');
    await soon();
    expect(bodies).toEqual([expect.objectContaining({ category: 'k1' })]);
    expect(bodies[0]?.items[0]).not.toHaveProperty('k');
    expect(checking.answer?.totalK).toBe(7);
  });

  it('is asked about once more without it where the table lacks the numbers, and not again', async () => {
    asking(async ({ items }) => {
      if (items.some(({ k }) => k === undefined)) throw new Refused([{ place: '/items/0/k', text: 'no K' }]);
      return checked(items);
    });
    const lacking = sheet({ numbers: numbered });
    checking.about(lacking, 'k1');
    await soon();
    await soon();
    expect(bodies.map(({ items }) => items[0]?.k)).toEqual([undefined, 0.1]);
    expect(checking.complaints).toEqual([]);
    checking.about({ ...lacking }, 'k1');
    await soon();
    expect(bodies).toHaveLength(3);
  });
});

it('says at which place a sheet is refused', async () => {
  asking(async () => {
    throw new Refused([{ place: '/items/0/elements', text: 'too many' }]);
  });
  checking.about(sheet({ k: '1' }), undefined);
  await soon();
  expect(checking.complaints).toEqual([{ place: '/items/0/elements', text: 'too many' }]);
});
