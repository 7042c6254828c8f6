/** How long a flight has been in the air, by the clock of the device that said so. */

import { attemptOf, type LineRecord } from '../records/record';

/** Milliseconds since the attempt was last said to be in the air, as of `now` or of when it was said to be down; nothing before. */
export function flownMs(
  records: readonly LineRecord[],
  flight: string,
  attempt: number,
  now: number,
): number | undefined {
  const said = records
    .filter((one) => one.kind === 'status' && one.flight === flight && attemptOf(one) === attempt)
    .map(({ status = '', entered_at = '' }) => ({ status, at: Date.parse(entered_at) }))
    .filter(({ at }) => !Number.isNaN(at))
    .sort((a, b) => a.at - b.at);
  const began = said.findLastIndex(
    ({ status }, i) => status === 'flying' && said[i - 1]?.status !== 'flying',
  );
  const from = said[began];
  if (!from) return undefined;
  const down = said.slice(began + 1).find(({ status }) => status !== 'flying');
  return Math.max(0, (down?.at ?? now) - from.at);
}

/** `4:07` */
export function minutes(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
