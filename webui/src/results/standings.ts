/** A programme's flights as groups of rows. */

import { m } from '../lib/messages';
import { fixed } from '../lib/numbers';
import { to } from '../lib/router';
import type { Group, Row } from './table';
import type { Flight, State } from './types';

const groupOf: Record<State, keyof typeof m.standings.groups> = {
  flown: 'placed',
  flying: 'waiting',
  incomplete: 'waiting',
  unresolved: 'waiting',
  scheduled: 'scheduled',
  'not-flown': 'out',
  withdrawn: 'out',
  disqualified: 'out',
};

const order = ['placed', 'waiting', 'scheduled', 'out'] as const;

/** Placed flights by score, the others as they fly; a group without flights is left out. */
export function groups(flights: Flight[]): Group[] {
  return order.flatMap((key) => {
    const those = flights.filter((flight) => groupOf[flight.state] === key);
    if (those.length === 0) return [];
    const sorted = those.sort(key === 'placed' ? byScore : byNumber);
    return { key, name: m.standings.groups[key], rows: sorted.map(row) };
  });
}

/** How many flights have their score, of those that were to have one. */
export function flightsIn(flights: Flight[]): { in: number; all: number } {
  const meant = flights.filter((flight) => groupOf[flight.state] !== 'out');
  return { in: meant.filter((flight) => flight.state === 'flown').length, all: meant.length };
}

/** How many ranks the strip is wide. */
export function ranks(flights: Flight[]): number {
  return Math.max(
    0,
    ...flights.map((flight) =>
      flight.certainty ? Math.max(flight.rank ?? 0, flight.certainty.rank_high) : 0,
    ),
  );
}

/** Who and with what: `Lindholm Flying Club · Starling 200`; an aeroplane's name stays on one line. */
export function detail(pilot: { affiliation: string; aircraft: string }): string {
  return [pilot.affiliation, together(pilot.aircraft)].filter(Boolean).join(' · ');
}

/** What stands in the way of a score, in words; nothing where there is one. */
export function note(flight: Flight): string {
  if (flight.state === 'flown') return '';
  if (flight.state === 'unresolved') return m.standings.decision(flight.unresolved);
  if (flight.state === 'incomplete' && flight.missing.grades > 0) {
    return m.standings.missing(flight.missing.grades, flight.missing.seats);
  }
  if (flight.state === 'scheduled') return m.standings.number(flight.number);
  return m.standings.state[flight.state];
}

function together(text: string): string {
  return text.replaceAll(' ', '\u00a0');
}

/** In the order of the standing: those with a score, then the others as they fly. */
export function flightsByRank(flights: Flight[]): Flight[] {
  const scored = flights.filter(({ score }) => score !== undefined).sort(byScore);
  return [...scored, ...flights.filter(({ score }) => score === undefined).sort(byNumber)];
}

function row(flight: Flight): Row {
  const { id, pilot, score, percent, certainty } = flight;
  return {
    key: id,
    name: pilot.name,
    ...(flight.state === 'flown' ? { href: to.flight(id) } : {}),
    detail: detail(pilot),
    note: note(flight),
    rank: flight.rank ?? null,
    unranked: flight.ranked ? '' : m.standings.unranked,
    numbers: [{ text: fixed(score, 2) }, { text: fixed(percent, 2) }],
    ...(certainty ? { certainty } : {}),
    moved: 0,
  };
}

function byScore(a: Flight, b: Flight): number {
  return (b.score ?? 0) - (a.score ?? 0) || (a.rank ?? Infinity) - (b.rank ?? Infinity) || byNumber(a, b);
}

function byNumber(a: Flight, b: Flight): number {
  return a.number - b.number;
}
