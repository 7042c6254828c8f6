/**
 * Delivers what a device recorded: one request in flight, in the order of the
 * records, again and again until the server has said of each what became of it.
 */

import type { LineRecord } from '../records/record';
import type { LineStore } from '../store/store';
import { take, type Answer } from './answer';

/** Sends records; throws where no answer came. */
export type Send = (records: LineRecord[], signal: AbortSignal) => Promise<Answer>;

/** How a delivery stands. */
export type Delivering = 'resting' | 'sending' | 'failing';

/** Records in a request, far below what the service takes. */
const most = 100;
/** Characters in a request: its body may have a mebibyte. */
const large = 400_000;

/** How long to wait after failure n (from 0): 1 s, doubling, at most 15 s, up to half of it sooner by chance. */
export const waitMs = (n: number, chance = Math.random()): number =>
  Math.min(15_000, 1000 * 2 ** n) * (1 - chance / 2);

export class Delivery {
  #ring: (() => void) | undefined;
  #rung = false;

  constructor(
    private readonly store: LineStore,
    private readonly device: string,
    private readonly send: Send,
    private readonly tell: (state: Delivering, thrown?: unknown) => void = () => {},
    private readonly wait = waitMs,
  ) {}

  /** Something was recorded, or the network may be back: try now. */
  wake = (): void => {
    this.#rung = true;
    this.#ring?.();
  };

  /** Works until it is called off. */
  async work(signal: AbortSignal): Promise<void> {
    signal.addEventListener('abort', this.wake);
    let failures = 0;
    while (!signal.aborted) {
      const outcome = await this.step(signal);
      if (signal.aborted) return;
      failures = outcome === 'failing' ? failures + 1 : 0;
      if (outcome === 'resting') await this.#pause(undefined);
      if (outcome === 'failing') await this.#pause(this.wait(failures - 1));
    }
  }

  /** Sends what is first in the row, and notes the answer. */
  async step(signal: AbortSignal): Promise<Delivering> {
    this.#rung = false;
    const records = await this.#batch();
    if (records.length === 0) return this.#told('resting');
    this.tell('sending');
    try {
      const answer = await this.send(records, signal);
      await take(this.store, this.device, answer);
      return 'sending';
    } catch (thrown) {
      return this.#told('failing', thrown);
    }
  }

  #told(state: Delivering, thrown?: unknown): Delivering {
    this.tell(state, thrown);
    return state;
  }

  /** The records that wait, as many as go into one request; always one. */
  async #batch(): Promise<LineRecord[]> {
    const waiting = await this.store.waiting(this.device, most);
    let size = 0;
    const fits = waiting.findIndex(
      ({ record }, i) => (size += JSON.stringify(record).length) > large && i > 0,
    );
    return waiting.slice(0, fits < 0 ? most : fits).map(({ record }) => record);
  }

  /** Rests until it is woken, or for a time. */
  #pause(ms: number | undefined): Promise<void> {
    if (this.#rung) return Promise.resolve();
    return new Promise((resolve) => {
      const timer = ms === undefined ? undefined : setTimeout(resolve, ms);
      this.#ring = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }
}
