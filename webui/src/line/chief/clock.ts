/** How long a flight has been in the air, by the clock of the device that said so. */

import { attemptOf, type LineRecord } from '../records/record';

/** Milliseconds since the attempt was last said to be in the air, as of `now` or of when it was said to be down; nothing before, and nothing where the clock was set back meanwhile. */
export function flownMs(
  records: readonly LineRecord[],
  flight: string,
  attempt: number,
  now: number,
): number | undefined {
  const said = records
    .filter((one) => one.kind === 'status' && one.flight === flight && attemptOf(one) === attempt)
    .map(({ id, status = '', entered_at = '', replaces = [] }) => ({
      ...{ id, status, replaces },
      at: Date.parse(entered_at),
    }))
    .filter(({ at }) => !Number.isNaN(at));
  inOrder(said);
  const began = said.findLastIndex(
    ({ status }, i) => status === 'flying' && said[i - 1]?.status !== 'flying',
  );
  const from = said[began];
  if (!from) return undefined;
  const down = said.slice(began + 1).find(({ status }) => status !== 'flying');
  const flown = (down?.at ?? now) - from.at;
  return flown < 0 ? undefined : flown;
}

interface Said {
  id: string;
  replaces: string[];
  at: number;
}

/** What takes the place of another was said after it, whatever the clock was set to meanwhile; else the clock tells. */
function inOrder(said: Said[]): void {
  const steps = new Map<Said, number>();
  const step = (one: Said): number => {
    if (!steps.has(one)) {
      steps.set(one, 0); // two that say to take the place of each other are met once
      const before = said.filter(({ id }) => one.replaces.includes(id));
      steps.set(one, Math.max(0, ...before.map((each) => 1 + step(each))));
    }
    return steps.get(one) ?? 0;
  };
  said.sort((a, b) => step(a) - step(b) || a.at - b.at);
}

/** `4:07` */
export function minutes(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
