/** What the boards of a wall show, as far as they were read. */

import { SvelteMap } from 'svelte/reactivity';
import { Failure } from '../lib/client';
import { Movement, type Row } from '../results/table';
import { readBoard, type Board, type Content } from './boards';

export class Contents {
  /** When something was read last, in milliseconds since 1970. */
  readAt = $state(Date.now());
  /** There may be something newer, which could not be read. */
  stale = $state(false);

  #read = new SvelteMap<string, Content>();
  #movements = new SvelteMap<string, Movement>();

  /** What a board shows; nothing where it was not read yet. */
  of(key: string): Content | undefined {
    return this.#read.get(key);
  }

  /** Reads a board, and then those that were never read. */
  async readAll(first: Board, boards: Board[], signal: AbortSignal): Promise<void> {
    await this.#take(first, signal);
    for (const other of boards) {
      if (!this.#read.has(other.key) && !signal.aborted) await this.#take(other, signal);
    }
  }

  async #take(board: Board, signal: AbortSignal): Promise<void> {
    try {
      const content = await readBoard(board, signal);
      if (signal.aborted) return;
      const parts = content.parts.map((part, i) => ({
        ...part,
        rows: this.#moved(`${board.key} ${i}`, part.rows),
      }));
      this.#read.set(board.key, { ...content, parts });
      this.readAt = Date.now();
      this.stale = false;
    } catch (thrown) {
      if (!signal.aborted) this.stale = thrown instanceof Failure && thrown.passing;
    }
  }

  /** The rows of a part with the ranks gained since it was read before. */
  #moved(key: string, rows: Row[]): Row[] {
    const movement = this.#movements.get(key) ?? new Movement();
    this.#movements.set(key, movement);
    return movement.next([{ key, name: '', rows }]).flatMap((group) => group.rows);
  }
}
