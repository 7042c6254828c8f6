/** The keys that build a figure: which there are, in which rows. */

import { m } from '../lib/messages/figure';
import { arcDegrees, turnDegrees, type Move, type Rotation, type RotationKind } from './moves';
import { attitude, offers, type State } from './state';
import { moveText, turnsText } from './words';

/** A key adds a move, or a rotation to the line it is tapped on. */
export interface Key {
  text: string;
  /** What it says to those who do not see its row. */
  label: string;
  move?: Move;
  rotation?: Rotation;
  /** The move is drawn on it. */
  drawn?: boolean;
}

export interface Row {
  name: string;
  keys: Key[];
  /** The keys carry words and need room. */
  wide?: boolean;
}

/** The turns that are flown most; the chosen rotation can be given any other. */
const rolls = [0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2];
const spins = [0.75, 1, 1.25, 1.5, 1.75, 2, 2.25, 2.5];

/** The rows for what can follow a state; those that not every state has come last. */
export function paletteRows(from: State | undefined): Row[] {
  const can = offers(from);
  const rows = [line(from), rotations('roll'), rotations('flick')];
  if (can.arcs) rows.push(arcs(false), arcs(true));
  if (can.turns) rows.push(turns());
  if (can.spins) rows.push(spinning(from !== undefined && attitude(from)?.inverted === true));
  if (can.falls) rows.push(falls());
  return rows;
}

const words = m.editor.move;

const line = (from: State | undefined): Row => ({
  name: words.line,
  keys: [key(moveText({ line: [] }, from), { line: [] }, true)],
  wide: true,
});

function rotations(kind: RotationKind): Row {
  const name = m.editor.rotation.kinds[kind];
  const keys = rolls.map((turns): Key => {
    const text = turnsText(turns);
    return { text, label: `${name} ${text}`, rotation: { kind, turns } };
  });
  return { name, keys };
}

function arcs(push: boolean): Row {
  const name = push ? words.push : words.pull;
  const keys = arcDegrees.map((arc): Key => {
    const move = push ? { arc, push } : { arc };
    return { text: words.degrees(arc), label: words.arc(push, arc), move, drawn: true };
  });
  return { name, keys };
}

function turns(): Row {
  const keys = [true, false].flatMap((left) =>
    turnDegrees.map((turn): Key => {
      const text = `${words.degrees(turn)} ${words.sides[left ? 'left' : 'right']}`;
      const move = left ? { turn, left } : { turn };
      return { text, label: words.turning(turn, left), move, drawn: true };
    }),
  );
  return { name: words.turn, keys, wide: true };
}

function spinning(inverted: boolean): Row {
  const keys = spins.map((spin): Key => {
    const text = turnsText(spin);
    return {
      text,
      label: words.spinning(text, inverted, false),
      move: inverted ? { spin, inverted } : { spin },
    };
  });
  return { name: words.spin, keys };
}

function falls(): Row {
  const moves: Move[] = [
    { pivot: true, left: true },
    { pivot: true },
    { slide: 'canopy-up' },
    { slide: 'canopy-down' },
  ];
  return {
    name: words.falls,
    keys: moves.map((move) => key(moveText(move, undefined), move, true)),
    wide: true,
  };
}

const key = (text: string, move: Move, drawn: boolean): Key => ({ text, label: text, move, drawn });
