/** Who is one person: what is sent is always all that holds. */

import { newId } from '../setup/make';
import type { Pilot } from './service';

export const keyOf = ({ contest, pilot }: Pilot): string => `${contest.id} ${pilot}`;

/** Those confirmed to be one person, by person. */
export function groups(pilots: Pilot[]): Pilot[][] {
  const found = new Map<string, Pilot[]>();
  for (const one of pilots) {
    if (one.person) found.set(one.person, [...(found.get(one.person) ?? []), one]);
  }
  return [...found.values()];
}

/** Whether two pilots of one contest are one person, which nobody is. */
export const anyTwice = (pilots: Pilot[]): boolean =>
  groups(pilots).some((same) => new Set(same.map(({ contest }) => contest.id)).size < same.length);

/** All pilots, these of them one person: the one that any is already, with all others who are it. */
export function joined(pilots: Pilot[], same: Pilot[]): Pilot[] {
  const present = new Set(same.flatMap(({ person }) => person ?? []));
  const person = [...present][0] ?? newId();
  const keys = new Set(same.map(keyOf));
  return pilots.map((one) =>
    keys.has(keyOf(one)) || (one.person && present.has(one.person)) ? { ...one, person } : one,
  );
}

/** All pilots, these of them each a person alone. */
export function apart(pilots: Pilot[], same: Pilot[]): Pilot[] {
  const keys = new Set(same.map(keyOf));
  return pilots.map(({ person, ...one }) => (person && !keys.has(keyOf(one)) ? { ...one, person } : one));
}
