/** Asks the service about the sheet at every tap: one request at a time, the latest wins. */

import { Failure } from '../lib/client';
import { answer, type Answer, type Checked, type Complaint, type Question } from './check';

/** Asks once; throws a `Failure`, or `Refused` where the document is. */
export type Ask = (body: Question['body'], signal: AbortSignal) => Promise<Checked>;

/** The service refuses a document, with a complaint for each place. */
export class Refused extends Error {
  constructor(readonly complaints: Complaint[]) {
    super('refused');
  }
}

/** Taps that follow each other as closely as this are one. */
const togetherMs = 30;
/** Waiting is said in words after this. */
const slowMs = 400;
const againMs = [2_000, 5_000, 10_000];

export class Checking {
  answer = $state.raw<Answer>();
  complaints = $state.raw<Complaint[]>([]);
  failure = $state.raw<Failure>();
  slow = $state(false);

  #ask: Ask;
  #latest: Question | undefined;
  #running: AbortController | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #failures = 0;

  constructor(ask: Ask) {
    this.#ask = ask;
  }

  /** Asks soon; what was asked before and not sent is forgotten. */
  about(question: Question): void {
    this.#latest = question;
    if (!this.#running) this.#soon(togetherMs);
  }

  again = (): void => this.#soon(0);

  stop(): void {
    clearTimeout(this.#timer);
    this.#latest = undefined;
    this.#running?.abort();
  }

  #soon(ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#send(), ms);
  }

  async #send(): Promise<void> {
    const asked = this.#latest;
    if (!asked || this.#running) return;
    const run = (this.#running = new AbortController());
    const slow = setTimeout(() => (this.slow = true), slowMs);
    try {
      const checked = await this.#ask(asked.body, run.signal);
      if (!run.signal.aborted) this.#took(asked, checked);
    } catch (thrown) {
      if (!run.signal.aborted) this.#failed(thrown);
    } finally {
      clearTimeout(slow);
      this.slow = false;
      this.#running = undefined;
    }
    if (run.signal.aborted) return;
    if (this.#latest !== asked) this.#soon(0);
    else if (this.failure) this.#soon(againMs[Math.min(this.#failures - 1, againMs.length - 1)] ?? 0);
  }

  #took(asked: Question, checked: Checked): void {
    this.answer = answer(asked, checked);
    this.complaints = [];
    this.failure = undefined;
    this.#failures = 0;
  }

  #failed(thrown: unknown): void {
    if (thrown instanceof Refused) {
      this.complaints = thrown.complaints;
      this.failure = undefined;
      return;
    }
    this.failure = thrown instanceof Failure ? thrown : new Failure('away', 0, String(thrown));
    this.#failures++;
  }
}
