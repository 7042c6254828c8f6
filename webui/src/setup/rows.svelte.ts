/**
 * One list of a set-up while it is edited: what was read last, and over it what
 * was typed and is not saved. Whoever else changes the same row overwrites
 * nothing: fields that only they changed are taken over, and where both changed
 * one, both values are kept until the reader has chosen.
 */

import { write } from './fields';
import { clashes, drafted, laid, rebasedAll, type Draft, type Drafts } from './merge';
import type { Row } from './types';

export class Rows<R extends Row> {
  now = $state.raw<R[]>([]);
  drafts = $state.raw<Drafts<R>>({});
  /** Every row as it is to be seen, in order. It outlives the page that first showed it, which a derived would not. */
  shown = $state.raw<R[]>([]);

  /** Is told of every change that the reader makes. */
  constructor(private readonly changed: (id: string, field: string) => void = () => {}) {}

  get unsaved(): number {
    return Object.keys(this.drafts).length;
  }

  /** How many rows wait for a choice. */
  get clashing(): number {
    return Object.values(this.drafts).filter(clashes).length;
  }

  /** Puts drafts in that were kept, or none. */
  restore(drafts: Drafts<R>): void {
    this.drafts = drafts;
    this.shown = laid(drafts, this.now);
  }

  /** A row as it is to be seen. */
  get(id: string): R | undefined {
    return this.drafts[id]?.row ?? this.#read(id);
  }

  set(id: string, field: string, value: unknown): void {
    const row = this.get(id);
    if (row) this.put(write(row, field, value), field);
  }

  /** Puts a row in, new or in place of the one with its id. */
  put(row: R, field = ''): void {
    this.restore(drafted(this.drafts, row, this.#read(row.id)));
    this.changed(row.id, field);
  }

  /** Puts many rows in at once. */
  putAll(rows: R[]): void {
    this.restore(rows.reduce((drafts, row) => drafted(drafts, row, this.#read(row.id)), this.drafts));
    this.changed('', '');
  }

  /** Adds a row at the end. */
  add(row: R): void {
    const last = Math.max(0, ...this.shown.map(({ position }) => position));
    this.put({ ...row, position: last + 1 });
  }

  remove(id: string): void {
    const from = this.drafts[id] ? this.drafts[id].from : this.#read(id);
    const row = this.get(id);
    this.#keep(id, from && row ? { from, row, removed: true, theirs: {} } : undefined);
    this.changed(id, '');
  }

  /** Goes back to what was read. */
  drop(id: string): void {
    this.#keep(id, undefined);
    this.changed(id, '');
  }

  /** Puts a row back that somebody else took out. */
  putBack(id: string): void {
    const draft = this.drafts[id];
    if (draft) this.#keep(id, { row: { ...draft.row, revision: 0 }, theirs: {} });
    this.changed(id, '');
  }

  /** Chooses what is in a field that two have changed. */
  choose(id: string, field: string, whose: 'mine' | 'theirs'): void {
    const draft = this.drafts[id];
    if (!draft || !(field in draft.theirs)) return;
    const { [field]: value, ...theirs } = draft.theirs;
    this.#keep(id, { ...draft, theirs });
    this.put(whose === 'theirs' ? write(draft.row, field, value) : draft.row, field);
  }

  /** Moves a row before or behind its neighbour among some of the rows. */
  move(id: string, by: -1 | 1, among: R[] = this.shown): void {
    const at = among.findIndex((row) => row.id === id);
    const [row, other] = [among[at], among[at + by]];
    if (!row || !other) return;
    this.put({ ...row, position: other.position }, 'position');
    this.put({ ...other, position: row.position }, 'position');
  }

  /** Takes what was read, and lays what was typed over it. */
  take(rows: R[]): void {
    this.now = rows;
    this.restore(rebasedAll(this.drafts, rows));
  }

  /** Rows were stored as they were sent: what is typed from now on is on top of them. */
  stored(sent: R[]): void {
    const drafts = { ...this.drafts };
    for (const row of sent) {
      const draft = drafts[row.id];
      if (draft) drafts[row.id] = { ...draft, from: row };
    }
    this.drafts = drafts;
  }

  /** What is to be sent. */
  edits(): (R & { remove?: boolean })[] {
    return Object.values(this.drafts).map(({ from, row, removed }) => ({
      ...(removed && from ? from : row),
      revision: from?.revision ?? 0,
      ...(removed ? { remove: true } : {}),
    }));
  }

  #keep(id: string, draft: Draft<R> | undefined): void {
    const { [id]: _, ...others } = this.drafts;
    this.restore(draft ? { ...others, [id]: draft } : others);
  }

  /** A row as it was read last. */
  #read = (id: string): R | undefined => this.now.find((row) => row.id === id);
}
