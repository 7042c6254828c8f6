/** Small pictures of moves for the editor's keys and chips: paths in a square of 24. */

import type { Move } from './moves';
import { begin, isVertical, type State } from './state';

type Point = [x: number, y: number];
const size = 24;
const margin = 4;

/** Angle of the nose above the horizon as seen from the side, and which way a pull turns it. */
function seen(state: State): { angle: number; pull: number } {
  const along = (d: State['nose']) => d[0] + d[1];
  const { nose, canopy } = state;
  const across = isVertical(state) ? along(canopy) : along(nose);
  const side = across < 0 ? -1 : 1;
  const flat = isVertical(state) ? 0 : side;
  const angle = Math.atan2(nose[2], flat) * (180 / Math.PI);
  const turns = isVertical(state) ? (nose[2] > 0 ? -along(canopy) : along(canopy)) : canopy[2] * side;
  return { angle, pull: turns < 0 ? -1 : 1 };
}

/** The path of a move that begins in a state, level flight where it is not known. */
export function glyph(move: Move, from: State | undefined): string {
  const { angle, pull } = seen(from ?? begin({ inverted: false, heading: 0 }));
  if ('line' in move) return fitted(straight(angle));
  if ('arc' in move) return fitted(round(angle, move.arc * pull * (move.push ? -1 : 1)));
  if ('turn' in move) return flat(move.turn, move.left === true);
  if ('pivot' in move)
    return move.left ? 'M16 20V8a4 4 0 0 0-8 0v12m-3-4 3 4 3-4' : 'M8 20V8a4 4 0 0 1 8 0v12m-3-4 3 4 3-4';
  if ('slide' in move)
    return move.slide === 'canopy-up'
      ? 'M9 20V5m0 6c6 0 6 2 6 9m-3-4 3 4 3-4'
      : 'M9 20V5m0 6c-5 2-4 9 6 4m-4-2 4 2-1 4';
  return 'M4 6h8M8 10c0-2 8-2 8 0s-8 2-8 4 8 2 8 4-4 2-4 3';
}

function straight(angle: number): Point[] {
  const at = (angle * Math.PI) / 180;
  return [
    [0, 0],
    [Math.cos(at), -Math.sin(at)],
  ];
}

/** A part of a circle with a short piece of line before it. */
function round(angle: number, turn: number): Point[] {
  const points: Point[] = [];
  const way = Math.sign(turn);
  const start = (angle * Math.PI) / 180;
  const normal = start + (way * Math.PI) / 2;
  points.push([-0.7 * Math.cos(start), 0.7 * Math.sin(start)]);
  const steps = Math.abs(turn) / 15;
  for (let i = 0; i <= steps; i++) {
    const at = normal + Math.PI + (way * i * 15 * Math.PI) / 180;
    points.push([Math.cos(normal) + Math.cos(at), -(Math.sin(normal) + Math.sin(at))]);
  }
  return points;
}

/** A turn as seen from above, lying flat. */
function flat(degrees: number, left: boolean): string {
  const points: Point[] = [];
  for (let i = 0; i <= degrees; i += 15) {
    const at = (i * Math.PI) / 180;
    points.push([(left ? -1 : 1) * (1 - Math.cos(at)), -0.55 * Math.sin(at)]);
  }
  return fitted(points);
}

/** The points as a path as large as the square lets it be. */
function fitted(points: Point[]): string {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [wide, high] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const scale = (size - 2 * margin) / Math.max(wide, high, 1);
  const x0 = (size - wide * scale) / 2 - left * scale;
  const y0 = (size - high * scale) / 2 - top * scale;
  const one = ([x, y]: Point) => `${(x0 + x * scale).toFixed(1)} ${(y0 + y * scale).toFixed(1)}`;
  return `M${points.map(one).join('L')}`;
}
