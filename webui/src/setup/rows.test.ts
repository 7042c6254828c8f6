import { describe, expect, it } from 'vitest';
import { clashes } from './merge';
import { Rows } from './rows.svelte';
import type { Category, Pilot } from './types';

const pilot = (id: string, fields: Partial<Pilot> = {}): Pilot => ({
  id,
  revision: 1,
  position: Number(id),
  code: `p${id}`,
  name: 'Ann Ash',
  affiliation: 'Hill',
  aircraft: 'Swift',
  note: '',
  ...fields,
});

function list(...rows: Pilot[]): Rows<Pilot> {
  const made = new Rows<Pilot>();
  made.take(rows);
  return made;
}

describe('what is typed', () => {
  it('is a draft until it is as it was read', () => {
    const rows = list(pilot('1'), pilot('2'));
    rows.set('1', 'name', 'Ann Alder');
    expect(rows.shown.map(({ name }) => name)).toEqual(['Ann Alder', 'Ann Ash']);
    expect(rows.edits()).toEqual([pilot('1', { name: 'Ann Alder' })]);
    rows.set('1', 'name', 'Ann Ash');
    expect(rows.unsaved).toBe(0);
  });

  it('adds a row behind the others, which is gone when it is taken out again', () => {
    const rows = list(pilot('1'), pilot('2'));
    rows.add(pilot('9', { revision: 0 }));
    expect(rows.edits()).toEqual([pilot('9', { revision: 0, position: 3 })]);
    rows.remove('9');
    expect(rows.unsaved).toBe(0);
  });

  it('takes a row out as it was read', () => {
    const rows = list(pilot('1'));
    rows.set('1', 'name', 'x');
    rows.remove('1');
    expect(rows.edits()).toEqual([{ ...pilot('1'), remove: true }]);
    rows.drop('1');
    expect(rows.unsaved).toBe(0);
  });

  it('moves a row past its neighbour', () => {
    const rows = list(pilot('1'), pilot('2'), pilot('3'));
    rows.move('3', -1);
    expect(rows.shown.map(({ id }) => id)).toEqual(['1', '3', '2']);
    rows.move('1', -1);
    expect(rows.edits()).toHaveLength(2);
  });
});

describe('what somebody else changed meanwhile', () => {
  it('is taken over where only they changed it', () => {
    const rows = list(pilot('1'));
    rows.set('1', 'aircraft', 'Merlin');
    rows.take([pilot('1', { revision: 2, name: 'Ann Alder' })]);
    expect(rows.clashing).toBe(0);
    expect(rows.edits()).toEqual([pilot('1', { revision: 2, name: 'Ann Alder', aircraft: 'Merlin' })]);
  });

  it('is kept beside what is typed where both changed it, until one is chosen', () => {
    const rows = list(pilot('1'));
    rows.set('1', 'name', 'Ann Birch');
    rows.take([pilot('1', { revision: 2, name: 'Ann Alder' })]);
    expect(rows.drafts['1']?.theirs).toEqual({ name: 'Ann Alder' });
    expect(rows.get('1')?.name).toBe('Ann Birch');
    rows.take([pilot('1', { revision: 3, name: 'Ann Aspen' })]);
    expect(rows.drafts['1']?.theirs).toEqual({ name: 'Ann Aspen' });
    rows.choose('1', 'name', 'mine');
    expect(rows.clashing).toBe(0);
    expect(rows.edits()).toEqual([pilot('1', { revision: 3, name: 'Ann Birch' })]);
  });

  it('is what is there when it is chosen', () => {
    const rows = list(pilot('1'));
    rows.set('1', 'name', 'Ann Birch');
    rows.take([pilot('1', { revision: 2, name: 'Ann Alder' })]);
    rows.choose('1', 'name', 'theirs');
    expect(rows.unsaved).toBe(0);
    expect(rows.get('1')?.name).toBe('Ann Alder');
  });

  it('is no clash where both made the same of it', () => {
    const rows = list(pilot('1'));
    rows.set('1', 'name', 'Ann Alder');
    rows.take([pilot('1', { revision: 2, name: 'Ann Alder' })]);
    expect(rows.unsaved).toBe(0);
  });

  it('keeps a row that they took out until it is let go or put back', () => {
    const rows = list(pilot('1'));
    rows.set('1', 'name', 'Ann Birch');
    rows.take([]);
    expect(clashes(rows.drafts['1'] as never)).toBe(true);
    rows.putBack('1');
    expect(rows.edits()).toEqual([pilot('1', { revision: 0, name: 'Ann Birch' })]);
  });

  it('is not taken out unseen', () => {
    const rows = list(pilot('1'));
    rows.remove('1');
    rows.take([pilot('1', { revision: 2, name: 'Ann Alder' })]);
    expect(rows.unsaved).toBe(0);
  });
});

it('knows its own change again, with what was typed while it was saved', () => {
  const rows = list(pilot('1'));
  rows.set('1', 'name', 'Ann Birch');
  const sent = rows.edits();
  rows.set('1', 'name', 'Ann Birch-Ash');
  rows.stored(sent);
  rows.take([pilot('1', { revision: 2, name: 'Ann Birch' })]);
  expect(rows.clashing).toBe(0);
  expect(rows.edits()).toEqual([pilot('1', { revision: 2, name: 'Ann Birch-Ash' })]);
});

it('compares what stands inside a row field by field', () => {
  const combine = { by: 'sum', weights: { a: 0.5, b: 0.5 }, tie_break: [], team_best: 3 } as const;
  const category: Category = {
    id: '1',
    revision: 1,
    position: 1,
    code: 'm',
    name: 'Meadow',
    combine: { ...combine, tie_break: [] },
  };
  const rows = new Rows<Category>();
  rows.take([category]);
  rows.set('1', 'combine.weights', { b: 0.5, a: 0.5 });
  expect(rows.unsaved).toBe(0);
  rows.set('1', 'combine.team_best', 2);
  rows.take([{ ...category, revision: 2, combine: { ...category.combine, by: 'sum-percent' } }]);
  expect(rows.clashing).toBe(0);
  expect(rows.get('1')?.combine).toMatchObject({ by: 'sum-percent', team_best: 2 });
});
