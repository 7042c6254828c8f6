/** Asks the service about the sheet at every tap: one request at a time, the latest wins. */

import { Failure } from '../lib/client';
import { answer, lackingNumbers, question, type Answer } from './check';
import type { Sheet } from './sheet';
import type { Body, Checked, Complaint } from './types';

/** Asks once; throws a `Failure`, or `Refused` where the document is. */
export type Ask = (body: Body, signal: AbortSignal) => Promise<Checked>;

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
  #latest: { sheet: Sheet; category: string | undefined } | undefined;
  /** Numbers that the organiser's table is known not to have. */
  #lacks: string[] = [];
  #running: AbortController | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #failures = 0;

  constructor(ask: Ask) {
    this.#ask = ask;
  }

  /** Asks soon, by the rules of a category where one is given; what was asked before and not sent is forgotten. */
  about(sheet: Sheet, category: string | undefined): void {
    this.#latest = { sheet, category };
    if (!this.#running) this.#soon(togetherMs);
  }

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
    let again = false;
    try {
      const put = question(asked.sheet, asked.category, this.#lacks);
      const checked = await this.#ask(put.body, run.signal);
      if (!run.signal.aborted) this.#took(answer(put, checked));
    } catch (thrown) {
      if (!run.signal.aborted) again = this.#failed(thrown, asked.sheet);
    } finally {
      clearTimeout(slow);
      this.slow = false;
      this.#running = undefined;
    }
    if (run.signal.aborted) return;
    if (again || this.#latest !== asked) this.#soon(0);
    else if (this.failure) this.#soon(againMs[Math.min(this.#failures - 1, againMs.length - 1)] ?? 0);
  }

  #took(answer: Answer): void {
    this.answer = answer;
    this.complaints = [];
    this.failure = undefined;
    this.#failures = 0;
  }

  /** Tells whether it is worth asking at once, knowing more. */
  #failed(thrown: unknown, sheet: Sheet): boolean {
    if (thrown instanceof Refused) {
      this.failure = undefined;
      const lacking = lackingNumbers(sheet, thrown.complaints).filter(
        (numbers) => !this.#lacks.includes(numbers),
      );
      this.#lacks = [...this.#lacks, ...lacking];
      if (lacking.length === 0) this.complaints = thrown.complaints;
      return lacking.length > 0;
    }
    this.failure = Failure.of(thrown);
    this.#failures++;
    return false;
  }
}
