/** Something read from the server, kept while it is read again, read again by itself after a failure. */

import { Failure } from './client';

/** Reads once; throws a `Failure`. */
export type Read<T> = (signal: AbortSignal) => Promise<T>;

const slowMs = 1_000;
const againMs = [2_000, 5_000, 10_000, 30_000];

export class Resource<T> {
  value = $state.raw<T>();
  failure = $state.raw<Failure>();
  /** Reading for more than a second. */
  slow = $state(false);
  /** How many times it was read. */
  readings = $state(0);

  #read: Read<T>;
  #running: AbortController | undefined;
  #asked = false;
  #failures = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(read: Read<T>) {
    this.#read = read;
    void this.load();
  }

  /** Reads now; a call while reading is heard once more afterwards. */
  async load(): Promise<void> {
    if (this.#running) {
      this.#asked = true;
      return;
    }
    clearTimeout(this.#timer);
    const run = (this.#running = new AbortController());
    const slow = setTimeout(() => (this.slow = true), slowMs);
    try {
      const value = await this.#read(run.signal);
      if (!run.signal.aborted) this.#took(value);
    } catch (thrown) {
      if (!run.signal.aborted) this.#failed(thrown);
    } finally {
      clearTimeout(slow);
      this.slow = false;
      this.#running = undefined;
    }
    if (this.#asked && !run.signal.aborted) {
      this.#asked = false;
      await this.load();
    }
  }

  /** Reads now; to be handed on as it is. */
  again = (): void => void this.load();

  /** Stops reading for good. */
  stop(): void {
    this.#running?.abort();
    clearTimeout(this.#timer);
  }

  #took(value: T): void {
    this.value = value;
    this.readings++;
    this.failure = undefined;
    this.#failures = 0;
  }

  #failed(thrown: unknown): void {
    this.failure = Failure.of(thrown);
    if (!this.failure.passing) return;
    const wait = againMs[Math.min(this.#failures++, againMs.length - 1)];
    this.#timer = setTimeout(() => void this.load(), wait);
  }
}
