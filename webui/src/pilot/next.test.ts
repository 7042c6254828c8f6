import { expect, it } from 'vitest';
import { leftOf, nextOf, type PilotPage } from './next';

const start = (name: string, state: string, expected?: string) => ({
  programme: { name },
  turn: { turn: { state, ...(expected ? { expected } : {}) } },
});
const next = (...programmes: unknown[]) => nextOf({ programmes } as unknown as PilotPage)?.programme.name;

it('finds the start that comes next', () => {
  const known = start('Known', 'flown');
  expect(next(known, start('Free', 'waiting'), start('Unknown', 'waiting'))).toBe('Free');
  expect(next(known, start('Free', 'waiting'), start('Unknown', 'waiting', '2026-06-12T10:00:00Z'))).toBe(
    'Unknown',
  );
  expect(next(start('Free', 'waiting', '2026-06-12T10:00:00Z'), start('Unknown', 'called'))).toBe('Unknown');
  expect(next(known, { programme: { name: 'Free' } }, start('Unknown', 'withdrawn'))).toBeUndefined();
});

it('counts what is left of a time in whole minutes', () => {
  const now = new Date('2026-06-12T10:00:00Z');
  expect(leftOf('2026-06-12T11:02:01Z', now)).toEqual({ hours: 1, minutes: 3 });
  expect(leftOf('2026-06-12T10:00:10Z', now)).toEqual({ hours: 0, minutes: 1 });
  expect(leftOf('2026-06-12T10:00:00Z', now)).toBeUndefined();
  expect(leftOf(undefined, now)).toBeUndefined();
});
