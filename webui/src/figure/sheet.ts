/** A sequence as it is being written, and as the service takes it. */

import type { Move } from './moves';
import type { WireItem, WireSheet } from './types';

type Class = NonNullable<WireItem['class']>;

/** A catalogue number with its K, both as typed. */
export interface Numbered {
  number: string;
  k: string;
}

/** A pilot's own words; an empty one was not given. */
export interface Words {
  name: string;
  call: string;
  crowd: string;
}

/** A figure or an overall mark. */
export interface Item {
  /** Names the item while the order changes; not sent. */
  key: string;
  kind: 'figure' | 'overall';
  k: string;
  numbers: Numbered[];
  name: string;
  words: Words;
  moves: Move[];
  /** How the figure is drawn to begin; as the one before ends where nothing is said. */
  begins?: 'upright' | 'inverted';
  class?: Class;
}

export interface Sheet {
  items: Item[];
  /** The sequence begins inverted. */
  inverted: boolean;
}

/** How many items a sequence may hold. */
export const mostItems = 40;

export const noWords: Words = { name: '', call: '', crowd: '' };
const noNumber: Numbered = { number: '', k: '' };

let keys = 0;
/** A key that no other item of this page has. */
export const newKey = () => `i${++keys}-${Date.now().toString(36)}`;

export function emptySheet(): Sheet {
  return { items: [], inverted: false };
}

export function newFigure(): Item {
  return { key: newKey(), kind: 'figure', k: '', numbers: [noNumber], name: '', words: noWords, moves: [] };
}

export function newOverall(name: string): Item {
  return { ...newFigure(), kind: 'overall', numbers: [], name };
}

export function copied(item: Item): Item {
  return { ...item, key: newKey() };
}

/** Reads a K as typed, with a point or a comma; nothing where it is none. */
export function readK(text: string): number | undefined {
  const k = text.trim().replace(',', '.');
  return /^\d{1,4}(\.\d)?$/.test(k) && Number(k) > 0 ? Number(k) : undefined;
}

/** The sum of the numbers' K, in tenths so that it is exact; nothing unless each is known. */
export function sumOfK(numbers: readonly Numbered[]): number | undefined {
  const tenths = numbers.map(({ k }) => Math.round(10 * (readK(k) ?? NaN)));
  const sum = tenths.reduce((all, one) => all + one, 0);
  return tenths.length > 0 && Number.isFinite(sum) ? sum / 10 : undefined;
}

/** K as typed, or the sum of the numbers' K where nothing is typed for the figure. */
export const kOf = (item: Item): number | undefined =>
  item.k.trim() === '' ? sumOfK(typed(item.numbers)) : readK(item.k);

const typed = (numbers: readonly Numbered[]) => numbers.filter(({ number }) => number.trim() !== '');

/** Writes the sheet for the service; what was not filled in is left out. */
export function written(sheet: Sheet): WireSheet {
  return { items: sheet.items.map(writtenItem), entry: { inverted: sheet.inverted } };
}

function writtenItem(item: Item): WireItem {
  const wire: WireItem = { kind: item.kind };
  const k = kOf(item);
  if (k !== undefined) wire.k = k;
  if (item.class) wire.class = item.class;
  if (item.name.trim()) wire.name = item.name.trim();
  if (item.kind === 'overall') return wire;
  const numbers = typed(item.numbers);
  if (numbers.length > 0) wire.elements = numbers.map(({ number }) => number.trim());
  const ks = numbers.map((one) => readK(one.k));
  if (ks.length > 0 && ks.every((one) => one !== undefined)) wire.element_k = ks;
  const words = Object.entries(item.words).filter(([, text]) => text.trim());
  if (words.length > 0) wire.words = Object.fromEntries(words.map(([name, text]) => [name, text.trim()]));
  if (item.moves.length > 0) wire.moves = item.moves;
  if (item.begins) wire.entry = { inverted: item.begins === 'inverted' };
  return wire;
}

/** Reads what the service gives. */
export function taken(wire: WireSheet): Sheet {
  return { items: wire.items.map(takenItem), inverted: wire.entry?.inverted === true };
}

function takenItem(wire: WireItem): Item {
  const elements = wire.elements ?? [];
  const item: Item = {
    key: newKey(),
    kind: wire.kind,
    k: wire.k === undefined ? '' : String(wire.k),
    numbers: elements.map((number, i) => ({ number, k: String(wire.element_k?.[i] ?? '') })),
    name: wire.name ?? '',
    words: { ...noWords, ...wire.words },
    moves: (wire.moves ?? []) as Move[],
  };
  if (item.kind === 'figure' && item.numbers.length === 0) item.numbers = [noNumber];
  if (wire.class) item.class = wire.class;
  if (wire.entry) item.begins = wire.entry.inverted ? 'inverted' : 'upright';
  return item;
}

/** Tells whether two sheets say the same to the service. */
export function same(a: Sheet, b: Sheet): boolean {
  return canonical(written(a)) === canonical(written(b));
}

/** Tells whether two sheets are the same as typed. */
export const alike = (a: Sheet, b: Sheet) => canonical(asTyped(a)) === canonical(asTyped(b));

const asTyped = ({ items, inverted }: Sheet) => ({
  inverted,
  items: items.map(({ key: _, ...rest }) => rest),
});

/** JSON with the fields in one order, however they came. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}
