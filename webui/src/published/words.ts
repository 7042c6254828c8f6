/** What is said of a publication. */

import { m } from '../lib/messages/published';
import { moment } from '../lib/times';
import type { Change, Summary } from './types';

/** What it is of: `Sportsman · Known`, `Sportsman · overall`. */
export function whatOf({ category, programme }: Summary): string {
  return programme ? m.standings.title(category.name, programme.name) : m.category.title(category.name);
}

/** Until when it can be protested. */
export function protests({ state, protest_until }: Summary, now = new Date()): string {
  if (state === 'official') return '';
  if (!protest_until) return m.published.noProtests;
  const over = new Date(protest_until) < now;
  return (over ? m.published.protestsOver : m.published.protests)(moment(protest_until));
}

/** `Provisional results · publication 3 · 12 June 2026, 14:20`, for the head of a printed page. */
export function paperLine({ state, number, published_at }: Summary): string {
  return m.published.paper.official(m.published.state[state], number, moment(published_at));
}

/** Of whom or what a change is. */
export function whose({ name }: Change): string {
  return name ?? m.published.wholeProgramme;
}

export function changed({ what, item = 0, judge, seat }: Change): string {
  if (what === 'grade') {
    return m.published.grade(item, judge && !seat ? m.published.formerSeat : m.published.seat(seat ?? 0));
  }
  if (what === 'ruling') return m.published.ruling(item);
  return Object.hasOwn(m.published.said, what) ? (m.published.said[what] as string) : what;
}
