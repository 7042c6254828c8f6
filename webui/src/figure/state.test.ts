import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Move } from './moves';
import { attitude, begin, follow, offers, pointing } from './state';

interface Case {
  why: string;
  inverted?: boolean;
  moves: Move[];
  exit?: { inverted: boolean; heading: number };
}

// The same invented figures that the service's own package is held to.
const folder = '../testdata/figures';
const cases = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .flatMap((name) => JSON.parse(readFileSync(`${folder}/${name}`, 'utf8')) as Case[])
  .filter((one) => one.exit !== undefined);

it('ends every figure where the service says it ends', () => {
  expect(cases.length).toBeGreaterThan(50);
  for (const { why, inverted = false, moves, exit } of cases) {
    const states = follow(moves, { inverted, heading: 0 });
    expect(states, why).toHaveLength(moves.length + 1);
    const last = states.at(-1);
    expect(last && attitude(last), why).toEqual(exit);
  }
});

describe('what can follow', () => {
  const after = (...moves: Move[]) => follow(moves, { inverted: false, heading: 0 }).at(-1);

  it('is a turn or a spin from level flight', () => {
    expect(offers(begin({ inverted: true, heading: 90 }))).toEqual({
      arcs: true,
      turns: true,
      falls: false,
      spins: true,
    });
  });

  it('is a stall turn or a slide from straight up', () => {
    const up = after({ arc: 90 });
    expect(up && pointing(up)).toBe('up');
    expect(offers(up)).toEqual({ arcs: true, turns: false, falls: true, spins: false });
  });

  it('is anything where the way there cannot be followed', () => {
    const states = follow([{ pivot: true }, { arc: 90 }], { inverted: false, heading: 0 });
    expect(states).toHaveLength(1);
    expect(offers(states[2])).toEqual({ arcs: true, turns: true, falls: true, spins: true });
  });
});
