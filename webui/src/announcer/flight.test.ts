import { cleanup, render, screen } from '@testing-library/svelte';
import { afterEach, describe, expect, it } from 'vitest';
import Flight from './Flight.svelte';
import type { AnnouncedFlight, AnnouncedItem } from './service';

afterEach(cleanup);

const named = (id: string, name: string) => ({ id, name });
const pilot = { id: 'p', name: 'Mara Quist', affiliation: 'North', aircraft: 'Wren' };
const figure = (crowd: string): AnnouncedItem => ({ number: 1, kind: 'figure', k: 10, name: '', crowd });
const mark: AnnouncedItem = { number: 2, kind: 'overall', k: 4, name: 'Presentation', crowd: '' };

function show(more: Partial<AnnouncedFlight>): void {
  const flight: AnnouncedFlight = {
    id: 'f',
    number: 3,
    status: 'flying',
    wind: '',
    programme: named('s', 'Freestyle'),
    kind: 'freestyle',
    category: named('c', 'Ridge'),
    pilot,
    ranked: true,
    items: [],
    entered: 0,
    next: [],
    scored: [],
    ...more,
  };
  render(Flight, { flight });
}
const there = (text: string | RegExp) => screen.queryByText(text) !== null;

describe('a free style', () => {
  it('is told in its pilot’s own words where its figures have none', () => {
    show({ description: 'One great circle.', items: [figure(''), mark] });
    expect(there('One great circle.')).toBe(true);
    expect(there('Presentation')).toBe(true);
    expect(there('Not described.')).toBe(false);
    expect(there(/has not described it/)).toBe(false);
  });
  it('is told in both where they have', () => {
    show({ kind: 'free', description: 'One great circle.', items: [figure('A loop.'), mark] });
    expect(there('One great circle.')).toBe(true);
    expect(there('A loop.')).toBe(true);
  });
  it('says that nobody described it', () => {
    show({ items: [mark] });
    expect(there(/has not described it/)).toBe(true);
  });
});

it('tells between flights what the last one came to', () => {
  const other = { pilot: { ...pilot, id: 'q', name: 'Jon' }, score: 1700, rank: 2, ranked: true };
  show({
    status: 'closed',
    items: [figure('A loop.')],
    scored: [{ pilot, score: 1834.5, rank: 1, ranked: true }, other],
  });
  expect(there('1834.50 points')).toBe(true);
  expect(there('Place 1 of the 2 so far')).toBe(true);
  expect(there('A loop.')).toBe(false);
});

it('says how long a flight was in the air when it is down', () => {
  show({ status: 'landed', began: '2026-06-12T10:00:00Z', ended: '2026-06-12T10:04:07Z' });
  expect(there('Was in the air for')).toBe(true);
  expect(screen.getByRole('timer').textContent).toBe('4:07');
});
