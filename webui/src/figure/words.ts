/** Moves and rotations in words, as the editor's keys and chips say them. */

import { m } from '../lib/messages/figure';
import { rotationsOf, type Move, type Rotation } from './moves';
import { attitude, isInverted, isVertical, pointing, type State } from './state';

/** Words as a heading begins. */
export const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

const quarters = ['', '¼', '½', '¾'];

/** `1¼` for 1.25; `0` for nothing. */
export function turnsText(turns: number): string {
  const whole = Math.floor(turns);
  return `${whole || ''}${quarters[Math.round((turns - whole) * 4)] ?? ''}` || '0';
}

export function rotationText({ kind, turns, points, left = false }: Rotation): string {
  if (points) return m.editor.rotation.pointText(turns * points, points, left);
  return m.editor.rotation.text(turnsText(turns), kind, left);
}

/** What a move is, without its rotations; `from` is the state it begins in, where that is known. */
export function moveText(move: Move, from: State | undefined): string {
  const words = m.editor.move;
  if ('line' in move) return from ? words.lineAt[pointing(from)] : words.line;
  if ('arc' in move) return words.arc(move.push === true, move.arc);
  if ('turn' in move) return words.turning(move.turn, move.left === true);
  if ('pivot' in move) return words.pivoting(move.left === true);
  if ('slide' in move) return words.sliding(move.slide);
  return words.spinning(turnsText(move.spin), move.inverted === true, move.left === true);
}

/** What is rolled or flicked during a move. */
export function besides(move: Move): string {
  if ('turn' in move && move.rolls) {
    return m.editor.move.rolls(turnsText(move.rolls), move.inward === true, move.alternate === true);
  }
  return (rotationsOf(move) ?? []).map(rotationText).join(', ');
}

/** A move with everything in it. */
export function wholeMove(move: Move, from: State | undefined): string {
  return [moveText(move, from), besides(move)].filter(Boolean).join(', ');
}

/** Where the aeroplane is in a state. */
export function placeText(state: State | undefined): string {
  if (!state) return m.editor.placeUnknown;
  const level = isVertical(state) || attitude(state) !== undefined || state.canopy[2] !== 0;
  return m.editor.place(pointing(state), isInverted(state), level);
}
