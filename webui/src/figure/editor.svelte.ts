/** What the editor's keys do to a sheet, with every step kept to be taken back. */

import { rotationsOf, withRotations, type Move, type Rotation } from './moves';
import { copied, emptySheet, newFigure, newOverall, type Item, type Sheet } from './sheet';

/** What is chosen: an item and one of its moves, -1 for none. */
export interface Place {
  item: number;
  move: number;
}

interface Step extends Place {
  sheet: Sheet;
}

/** More steps than anybody takes back. */
const mostSteps = 500;

export class Editor {
  sheet = $state.raw<Sheet>(emptySheet());
  at = $state.raw<Place>({ item: 0, move: -1 });
  past = $state.raw<Step[]>([]);
  future = $state.raw<Step[]>([]);

  item = $derived(this.sheet.items[this.at.item]);
  move = $derived(this.item?.moves[this.at.move]);

  #typing: string | undefined;

  /** Shows another sheet, with nothing to take back. */
  open(sheet: Sheet): void {
    this.sheet = sheet;
    this.at = { item: 0, move: -1 };
    this.past = [];
    this.future = [];
    this.#typing = undefined;
  }

  /**
   * Changes the sheet as one step. Steps in a row of one `typing` are one: a
   * word typed is taken back as a word.
   */
  change(sheet: Sheet, at: Place = this.at, typing?: string): void {
    if (typing === undefined || typing !== this.#typing) {
      this.past = [...this.past.slice(-mostSteps), { sheet: this.sheet, ...this.at }];
    }
    this.#typing = typing;
    this.future = [];
    this.sheet = sheet;
    this.at = at;
  }

  /** Shows a sheet that says the same in other words; nothing is to be taken back. */
  adopt(sheet: Sheet): void {
    const items = sheet.items.map((item, i) => ({ ...item, key: this.sheet.items[i]?.key ?? item.key }));
    this.sheet = { ...sheet, items };
    this.#typing = undefined;
  }

  undo = (): void => this.#step('past', 'future');
  redo = (): void => this.#step('future', 'past');

  #step(from: 'past' | 'future', to: 'past' | 'future'): void {
    const step = this[from].at(-1);
    if (!step) return;
    this[to] = [...this[to], { sheet: this.sheet, ...this.at }];
    this[from] = this[from].slice(0, -1);
    this.sheet = step.sheet;
    this.at = { item: step.item, move: step.move };
    this.#typing = undefined;
  }

  choose(item: number, move = -1): void {
    this.#typing = undefined;
    this.at = { item, move };
  }

  // Items.

  insertFigure(): void {
    this.#insert(newFigure());
  }

  insertOverall(name: string): void {
    this.change(
      { ...this.sheet, items: [...this.sheet.items, newOverall(name)] },
      { item: this.sheet.items.length, move: -1 },
    );
  }

  duplicateItem(): void {
    if (this.item) this.#insert(copied(this.item));
  }

  /** Puts an item after the chosen one, figures before the overall marks. */
  #insert(item: Item): void {
    const { items } = this.sheet;
    const marks = items.findIndex(({ kind }) => kind === 'overall');
    const after = items.length === 0 ? 0 : this.at.item + 1;
    const at = item.kind === 'figure' && marks >= 0 ? Math.min(after, marks) : after;
    this.change(
      { ...this.sheet, items: items.toSpliced(at, 0, item) },
      { item: at, move: item.moves.length - 1 },
    );
  }

  deleteItem(): void {
    if (!this.item) return;
    const items = this.sheet.items.toSpliced(this.at.item, 1);
    this.change(
      { ...this.sheet, items },
      { item: Math.max(0, Math.min(this.at.item, items.length - 1)), move: -1 },
    );
  }

  moveItem(by: -1 | 1): void {
    const items = swapped(this.sheet.items, this.at.item, by);
    if (items) this.change({ ...this.sheet, items }, { item: this.at.item + by, move: this.at.move });
  }

  /** Sets fields of the chosen item; `typing` names the field that is typed into. */
  set(fields: Partial<Item>, typing?: string): void {
    if (!this.item) return;
    this.#put({ ...this.item, ...fields }, this.at.move, typing && `${this.item.key} ${typing}`);
  }

  /** Has the chosen figure begin as it is drawn to, or as the one before ends. */
  begin(begins: Item['begins']): void {
    if (!this.item) return;
    const { begins: _, ...rest } = this.item;
    this.#put(begins ? { ...rest, begins } : rest);
  }

  setInverted(inverted: boolean): void {
    this.change({ ...this.sheet, inverted });
  }

  // Moves of the chosen item.

  /** Puts a move after the chosen one, or at the end where none is chosen. */
  addMove(move: Move): void {
    if (!this.item) return;
    const at = this.move ? this.at.move + 1 : this.item.moves.length;
    this.#moves(this.item.moves.toSpliced(at, 0, move), at);
  }

  /** Puts a rotation on the chosen line, or on a new one after the chosen move. */
  addRotation(rotation: Rotation): void {
    const on = this.move ?? this.item?.moves.at(-1);
    if (!on || !('line' in on)) return this.addMove({ line: [rotation] });
    const at = this.move ? this.at.move : (this.item?.moves.length ?? 0) - 1;
    if (this.item) this.#moves(this.item.moves.with(at, { line: [...on.line, rotation] }), at);
  }

  setMove(move: Move): void {
    if (this.item && this.move) this.#moves(this.item.moves.with(this.at.move, move), this.at.move);
  }

  deleteMove(): void {
    if (!this.item || !this.move) return;
    const moves = this.item.moves.toSpliced(this.at.move, 1);
    this.#moves(moves, Math.min(Math.max(this.at.move - 1, 0), moves.length - 1));
  }

  duplicateMove(): void {
    if (this.item && this.move) {
      this.#moves(this.item.moves.toSpliced(this.at.move, 0, this.move), this.at.move + 1);
    }
  }

  moveMove(by: -1 | 1): void {
    const moves = this.item && this.move && swapped(this.item.moves, this.at.move, by);
    if (moves) this.#moves(moves, this.at.move + by);
  }

  /**
   * Changes the rotations of the chosen move. On an arc that says nothing of
   * where they are flown they stand at `apex` degrees, where one is given.
   */
  rotate(change: (rotations: Rotation[]) => Rotation[], apex?: number): void {
    const rotations = this.move && rotationsOf(this.move);
    if (!this.move || !rotations) return;
    const move = withRotations(this.move, change(rotations));
    const unplaced = 'arc' in move && move.apex && move.at === undefined;
    this.setMove(unplaced && apex !== undefined ? { ...move, at: apex } : move);
  }

  #moves(moves: Move[], at: number): void {
    if (this.item) this.#put({ ...this.item, moves }, at);
  }

  #put(item: Item, move = this.at.move, typing?: string): void {
    const items = this.sheet.items.with(this.at.item, item);
    this.change({ ...this.sheet, items }, { item: this.at.item, move }, typing);
  }
}

/** The list with one element and its neighbour exchanged; nothing where there is no neighbour. */
function swapped<T>(list: readonly T[], at: number, by: -1 | 1): T[] | undefined {
  const one = list[at];
  const other = list[at + by];
  if (one === undefined || other === undefined) return undefined;
  return list.with(at, other).with(at + by, one);
}
