/** Turns through boards and their pages by itself. */

/** Where it stands: a board by its key, which may move among the others, and a page of it. */
export class Turning {
  key = $state('');
  page = $state(0);
  paused = $state(false);
  /** Counts the pages shown, so that each begins its time anew. */
  turns = $state(0);

  #boards: () => string[];
  #pages: (key: string) => number | undefined;

  /** The keys of the boards in their order, and how many pages one has; undefined for one that is not read yet. */
  constructor(boards: () => string[], pages: (key: string) => number | undefined) {
    this.#boards = boards;
    this.#pages = pages;
  }

  /** The place of the board among the others; of one that went, the first. */
  get at(): number {
    return Math.max(0, this.#boards().indexOf(this.key));
  }

  /** The next page, after the last one of a board the next board. */
  on(): void {
    if (this.page + 1 < (this.#pages(this.key) ?? 0)) this.#show(this.key, this.page + 1);
    else this.#board(1);
  }

  /** The page before, before the first one of a board the last of the board before. */
  back(): void {
    if (this.page > 0) return this.#show(this.key, this.page - 1);
    this.#board(-1);
    this.page = Math.max(0, (this.#pages(this.key) ?? 0) - 1);
  }

  /** The board after this one, or before it. */
  board(by: 1 | -1): void {
    this.#board(by);
  }

  pause(): void {
    this.paused = !this.paused;
    this.turns++;
  }

  /** Skips boards known to have nothing to show, but stays where no other has: one not read yet is gone to, so that no key is lost. */
  #board(by: 1 | -1): void {
    const keys = this.#boards();
    const { at } = this;
    for (let step = 1; step <= keys.length; step++) {
      const key = keys[(at + by * step + step * keys.length) % keys.length] ?? '';
      if (this.#pages(key) !== 0) return this.#show(key, 0);
    }
    this.#show(keys[at] ?? '', 0);
  }

  #show(key: string, page: number): void {
    this.key = key;
    this.page = page;
    this.turns++;
  }
}
