/** What a pilot has next, and what is left of a time. */

import type { components } from '../lib/api';

export type PilotPage = components['schemas']['PilotPage'];
export type PilotProgramme = PilotPage['programmes'][number];
type Started = PilotProgramme & Required<Pick<PilotProgramme, 'turn'>>;

const open = ['flying', 'called', 'interrupted', 'waiting'];

/** The start that comes next: one that has begun, else the first that is expected, else the first that waits. */
export function nextOf({ programmes }: PilotPage): Started | undefined {
  const starts = programmes.filter((one): one is Started => open.includes(one.turn?.turn.state ?? ''));
  return starts.sort((a, b) => begun(a) - begun(b) || expected(a) - expected(b) || 0)[0];
}

/** The programmes that sums over a pilot's flights are of: those with a score. */
export function overOf({ programmes }: PilotPage): string[] {
  return programmes
    .filter(({ published, now }) => published?.place.score !== undefined || now?.flight.score !== undefined)
    .map(({ programme }) => programme.name);
}

const begun = ({ turn }: Started) => (turn.turn.state === 'waiting' ? 1 : 0);
const expected = ({ turn }: Started) =>
  turn.turn.expected ? new Date(turn.turn.expected).getTime() : Number.MAX_SAFE_INTEGER;

/** Hours and whole minutes until a time, the last minute counted as one; nothing where it is over. */
export function leftOf(until: string | undefined, now: Date): { hours: number; minutes: number } | undefined {
  const ms = new Date(until ?? '').getTime() - now.getTime();
  if (!(ms > 0)) return undefined;
  const minutes = Math.ceil(ms / 60_000);
  return { hours: Math.floor(minutes / 60), minutes: minutes % 60 };
}
