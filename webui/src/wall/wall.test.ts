import { describe, expect, it } from 'vitest';
import type { Summary } from '../published/types';
import { wholeContest } from '../lib/fixtures/contest';
import { boardsOf, type Content, type Part } from './boards';
import { fitting, pagesOf, readingMs } from './paging';
import { Turning } from './turning.svelte';

const part = (n: number, title = ''): Part => ({
  title,
  columns: [],
  ranks: 0,
  cut: 0,
  rows: Array.from({ length: n }, (_, i) => ({
    key: `${i}`,
    name: `Pilot ${i + 1}`,
    detail: '',
    note: '',
    rank: i + 1,
    unranked: '',
    numbers: [],
    moved: 0,
  })),
});
const content = (...parts: Part[]): Content => ({ parts, words: [] });
const cut = (of: Content, fit: number) => pagesOf(of, fit).map(({ from, to }) => `${from}-${to}`);

describe('pages', () => {
  it('are as even as can be', () => {
    expect(cut(content(part(9)), 8)).toEqual(['1-5', '6-9']);
    expect(cut(content(part(8)), 8)).toEqual(['1-8']);
    expect(cut(content(part(22)), 8)).toEqual(['1-8', '9-16', '17-22']);
  });
  it('begin anew with each part, and there are none of nothing', () => {
    expect(cut(content(part(3), part(2, 'Teams')), 8)).toEqual(['1-3', '1-2']);
    expect(cut(content(), 8)).toEqual([]);
  });
  it('have a row at least, however small the wall', () => {
    expect(fitting(30, 60)).toBe(1);
    expect(cut(content(part(2)), fitting(0, 60))).toEqual(['1-1', '2-2']);
  });
  it('are shown the longer the more there is to read', () => {
    expect(readingMs(8)).toBeGreaterThan(readingMs(2));
  });
});

describe('turning', () => {
  const made = (pages: Record<string, number | undefined>) => {
    const turning = new Turning(
      () => Object.keys(pages),
      (key) => pages[key],
    );
    turning.key = Object.keys(pages)[0] ?? '';
    return turning;
  };
  const walk = (turning: Turning, step: 'on' | 'back', n: number) =>
    Array.from({ length: n }, () => {
      turning[step]();
      return `${turning.key}${turning.page + 1}`;
    });

  it('goes through all pages of all boards and round, past what is empty', () => {
    expect(walk(made({ a: 2, b: 0, c: 1 }), 'on', 4)).toEqual(['a2', 'c1', 'a1', 'a2']);
  });
  it('goes back the same way', () => {
    expect(walk(made({ a: 2, b: 0, c: 3 }), 'back', 4)).toEqual(['c3', 'c2', 'c1', 'a2']);
  });
  it('goes to a board that is not read yet', () => {
    expect(walk(made({ a: 1, b: undefined, c: 1 }), 'on', 3)).toEqual(['b1', 'c1', 'a1']);
    expect(walk(made({ a: 1, b: undefined, c: 2 }), 'back', 3)).toEqual(['c2', 'c1', 'b1']);
  });
  it('stays where no other board has anything', () => {
    expect(walk(made({ a: 1, b: 0 }), 'on', 2)).toEqual(['a1', 'a1']);
    expect(walk(made({}), 'on', 1)).toEqual(['1']);
  });
});

describe('boards', () => {
  const published = (programme?: string) =>
    ({
      category: { id: 'k1', name: 'Sportsman' },
      ...(programme ? { programme: { id: programme } } : {}),
    }) as Summary;
  const keys = (list: Summary[], live: boolean) =>
    boardsOf(wholeContest(), list, live).map(({ key, published }) => key + (published ? ' published' : ''));

  it('are of what is flown and, over several programmes, of all together', () => {
    expect(keys([], true)).toEqual(['programme p1', 'programme p2', 'category k1']);
  });
  it('are of what is published alone where nothing else may be seen', () => {
    expect(keys([], false)).toEqual([]);
    expect(keys([published('p1'), published()], false)).toEqual([
      'programme p1 published',
      'category k1 published',
    ]);
  });
});
