/**
 * Where the aeroplane points after each move, so that the editor offers what
 * can follow. What is wrong with a figure is the service's to say.
 */

import type { Move, Rotation } from './moves';

type Direction = readonly [x: number, y: number, z: number];

/** Nose and canopy, each a multiple of 45 degrees in a vertical plane; x ahead, y left, z up. */
export interface State {
  nose: Direction;
  canopy: Direction;
}

/** Level flight with the wings level: how a figure begins and ends. */
export interface Attitude {
  inverted: boolean;
  heading: number;
}

const sign = (d: Direction): Direction => [Math.sign(d[0]), Math.sign(d[1]), Math.sign(d[2])];
const minus = (d: Direction): Direction => sign([-d[0], -d[1], -d[2]]);
const plus = (a: Direction, b: Direction): Direction => sign([a[0] + b[0], a[1] + b[1], a[2] + b[2]]);
const cross = (a: Direction, b: Direction): Direction =>
  sign([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]);

/** Level flight as a state. */
export function begin({ inverted, heading }: Attitude): State {
  return turned({ nose: [1, 0, 0], canopy: [0, 0, inverted ? -1 : 1] }, heading, true);
}

const isLevel = (s: State) => s.nose[2] === 0;
export const isVertical = (s: State) => s.nose[0] === 0 && s.nose[1] === 0;
const isUp = (s: State) => s.nose[2] > 0;
export const isInverted = (s: State) => s.canopy[2] < 0;
const wingsLevel = (s: State) => cross(s.nose, s.canopy)[2] === 0;

/** The level flight that a state is; nothing for any other. */
export function attitude(s: State): Attitude | undefined {
  if (!isLevel(s) || !wingsLevel(s)) return undefined;
  const heading = s.nose[1] > 0 ? 90 : s.nose[0] < 0 ? 180 : s.nose[1] < 0 ? 270 : 0;
  return { inverted: isInverted(s), heading };
}

/** The states before each move and after the last; shorter where a move cannot be flown from where it begins. */
export function follow(moves: readonly Move[], from: Attitude): State[] {
  const states = [begin(from)];
  let quarters = 0; // of the rotations on the present line
  for (const [i, move] of moves.entries()) {
    const state = states[i] as State;
    quarters = 'line' in move ? quarters + sum(move.line) : 0;
    const following = moves[i + 1];
    const ends = following === undefined || !('line' in following);
    if ('line' in move && ends && quarters % 2 !== 0 && !isVertical(state)) break;
    const next = step(state, move);
    if (!next) break;
    states.push(next);
  }
  return states;
}

function step(s: State, move: Move): State | undefined {
  if ('line' in move) return rolled(s, sum(move.line));
  if ('arc' in move) return stepArc(s, move);
  if ('turn' in move)
    return attitude(s) && turned(rolled(s, 4 * (move.rolls ?? 0)), move.turn, move.left === true);
  if ('spin' in move) return stepSpin(s, move);
  if (!isVertical(s) || !isUp(s)) return undefined;
  return { nose: minus(s.nose), canopy: 'slide' in move ? minus(s.canopy) : s.canopy };
}

function stepArc(s: State, move: Extract<Move, { arc: number }>): State | undefined {
  const end = arced(s, move.arc, move.push === true);
  if (!move.apex || move.apex.length === 0) return end;
  const at = move.at ?? move.arc / 2;
  const quarters = sum(move.apex);
  if (at % 45 !== 0 || !isLevel(arced(s, at, move.push === true)) || quarters % 2 !== 0) return undefined;
  return rolled(end, quarters);
}

function stepSpin(s: State, move: Extract<Move, { spin: number }>): State | undefined {
  const level = attitude(s);
  if (!level || level.inverted !== (move.inverted === true)) return undefined;
  const stalled: State = { nose: [0, 0, -1], canopy: level.inverted ? minus(s.nose) : s.nose };
  return rolled(stalled, (move.left ? -4 : 4) * move.spin);
}

/** Rotations in quarters, to the right positive. */
function sum(rotations: readonly Rotation[]): number {
  return rotations.reduce((all, { turns, left }) => all + (left ? -4 : 4) * turns, 0);
}

function arced(s: State, degrees: number, push: boolean): State {
  for (let left = degrees; left > 0; left -= 45) {
    const towards = push ? minus(s.canopy) : s.canopy;
    const away = push ? s.nose : minus(s.nose);
    s = { nose: plus(s.nose, towards), canopy: plus(s.canopy, away) };
  }
  return s;
}

function rolled(s: State, quarters: number): State {
  for (let left = ((quarters % 4) + 4) % 4; left > 0; left--)
    s = { nose: s.nose, canopy: cross(s.nose, s.canopy) };
  return s;
}

function turned(s: State, degrees: number, left: boolean): State {
  const about = (d: Direction): Direction => sign([-d[1], d[0], d[2]]);
  for (let quarters = left ? degrees / 90 : 4 - degrees / 90; quarters > 0; quarters--)
    s = { nose: about(s.nose), canopy: about(s.canopy) };
  return s;
}

/** Where inside an arc it is level, in degrees: there rotations may stand. */
export function levelPlaces(s: State, degrees: number, push: boolean): number[] {
  const inside = Array.from({ length: degrees / 45 - 1 }, (_, i) => 45 * (i + 1));
  return inside.filter((at) => isLevel(arced(s, at, push)));
}

/** Where a state points. */
export type Pointing = 'level' | 'up' | 'down' | '45up' | '45down';

export function pointing(s: State): Pointing {
  if (isVertical(s)) return isUp(s) ? 'up' : 'down';
  return isLevel(s) ? 'level' : isUp(s) ? '45up' : '45down';
}

/** What can follow a state; everything where the state is not known. */
export interface Offers {
  arcs: boolean;
  turns: boolean;
  falls: boolean;
  spins: boolean;
}

export function offers(s: State | undefined): Offers {
  if (!s) return { arcs: true, turns: true, falls: true, spins: true };
  const level = attitude(s) !== undefined;
  return {
    arcs: isVertical(s) || wingsLevel(s),
    turns: level,
    falls: isVertical(s) && isUp(s),
    spins: level,
  };
}
