/**
 * Holds something that is asked for often to a pace: the first time at once,
 * then at most once in `ms`, and the last asking is never dropped. A busy line
 * changes a contest many times a second; a reader on a weak network is served
 * better by one reading than by all of them.
 */
export class Pace {
  #ms: number;
  #act: () => void;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = false;

  constructor(ms: number, act: () => void) {
    this.#ms = ms;
    this.#act = act;
  }

  ask(): void {
    if (this.#timer === undefined) this.#now();
    else this.#asked = true;
  }

  stop(): void {
    clearTimeout(this.#timer);
  }

  #now(): void {
    this.#asked = false;
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      if (this.#asked) this.#now();
    }, this.#ms);
    this.#act();
  }
}
