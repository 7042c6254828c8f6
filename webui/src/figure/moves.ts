/** Moves and rotations as the service takes them, and as the editor's keys make them. */

export const rotationKinds = ['roll', 'flick', 'outside-flick'] as const;
export type RotationKind = (typeof rotationKinds)[number];

export type Points = 2 | 4 | 8;

/** A rotation; to the right unless `left`, turns in quarters from 0.25 to 4. */
export interface Rotation {
  kind: RotationKind;
  turns: number;
  points?: Points;
  left?: boolean;
}

export interface Line {
  line: Rotation[];
}
export interface Arc {
  arc: number;
  push?: boolean;
  apex?: Rotation[];
  at?: number;
}
export interface Turn {
  turn: number;
  left?: boolean;
  rolls?: number;
  inward?: boolean;
  alternate?: boolean;
}
interface Pivot {
  pivot: true;
  left?: boolean;
}
export interface Slide {
  slide: 'canopy-up' | 'canopy-down';
}
export interface Spin {
  spin: number;
  inverted?: boolean;
  left?: boolean;
}
export type Move = Line | Arc | Turn | Pivot | Slide | Spin;

export const arcDegrees = [45, 90, 135, 180, 225, 270, 315, 360];
export const turnDegrees = [90, 180, 270, 360];
/** 0 is without stops. */
export const rollPoints: (0 | Points)[] = [0, 2, 4, 8];

/** 0.25 to 4 turns. */
export const turnCounts = Array.from({ length: 16 }, (_, i) => (i + 1) / 4);
/** 0 to 8 rolls on a turn. */
export const rollCounts = Array.from({ length: 17 }, (_, i) => i / 2);

/** The rotations that stand on a line or at an arc's apex; none for another move. */
export function rotationsOf(move: Move): Rotation[] | undefined {
  if ('line' in move) return move.line;
  return 'arc' in move ? (move.arc > 45 ? (move.apex ?? []) : undefined) : undefined;
}

/** The move with other rotations. */
export function withRotations(move: Move, rotations: Rotation[]): Move {
  if ('line' in move) return { line: rotations };
  if (!('arc' in move)) return move;
  const { apex: _, ...rest } = move;
  return rotations.length > 0 ? { ...rest, apex: rotations } : rest;
}

/** A copy without the fields that say what is so anyway. */
export function trimmed<T extends object>(move: T): T {
  const kept = Object.entries(move).filter(
    ([name, value]) => value !== undefined && value !== false && !(name === 'rolls' && value === 0),
  );
  return Object.fromEntries(kept) as T;
}

/** An arc of other degrees keeps its apex only where it is still inside. */
export function withDegrees(arc: Arc, degrees: number): Arc {
  const { at, apex, ...rest } = arc;
  const next: Arc = { ...rest, arc: degrees };
  if (apex && degrees > 45) next.apex = apex;
  if (at !== undefined && at < degrees) next.at = at;
  return next;
}

/** A rotation with other points: a flick has none, and two points stop after every half turn. */
export function withPoints(rotation: Rotation, points: 0 | Points): Rotation {
  const { points: _, ...rest } = rotation;
  if (points === 0 || rotation.kind !== 'roll') return rest;
  const turns = points === 2 ? Math.max(0.5, Math.floor(rotation.turns * 2) / 2) : rotation.turns;
  return { ...rest, turns, points };
}

/** A rotation of another kind. */
export function withKind(rotation: Rotation, kind: RotationKind): Rotation {
  return withPoints({ ...rotation, kind }, kind === 'roll' ? (rotation.points ?? 0) : 0);
}
