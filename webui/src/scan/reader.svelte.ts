/** What was read of the codes of tablets, and what the service says of it. */

import { client } from '../lib/client';
import { Refusal, sent } from '../lib/refusal';
import { Gatherer, type HandOver } from '../line/handover/code';

/** A set of codes: how much of it was read, and what came of it. */
export interface Read {
  sum: string;
  there: number;
  of: number;
  state: 'reading' | 'sending' | 'stored' | 'broken' | 'failed';
  stored: number;
  /** Of those, how many the service had before. */
  before: number;
  refused: number;
  why: string;
}

type Deliver = (handOver: HandOver) => Promise<{ records: { result: string }[] }>;

export const deliver: Deliver = ({ device, store, records }) =>
  sent(
    client.POST('/api/v1/line/records', {
      body: { device, store, records, unsent: 0, handed_over: true } as never,
    }),
  );

export class Reader {
  /** The latest first. */
  reads = $state<Read[]>([]);
  #gatherer = new Gatherer();

  constructor(private readonly deliver: Deliver) {}

  /** Takes what a camera read; false where it is no code of a tablet. */
  take(text: string): boolean {
    const taken = this.#gatherer.take(text);
    if (!taken) return false;
    const read = this.#find(taken.sum, taken.of);
    if (read.state !== 'reading') return true;
    read.there = taken.there;
    if (taken.there === taken.of) void this.send(read);
    return true;
  }

  #find(sum: string, of: number): Read {
    const found = this.reads.find((read) => read.sum === sum);
    if (found) return found;
    const none = { stored: 0, before: 0, refused: 0, why: '' };
    this.reads = [{ sum, there: 0, of, state: 'reading', ...none }, ...this.reads];
    return this.reads[0] as Read;
  }

  /** Sends a whole set, or sends it again. */
  async send(read: Read): Promise<void> {
    read.state = 'sending';
    try {
      const handOver = await this.#gatherer.open(read.sum).catch(() => undefined);
      if (!handOver) {
        read.state = 'broken';
        return;
      }
      const { records } = await this.deliver(handOver);
      const count = (result: string) => records.filter((one) => one.result === result).length;
      read.before = count('repeat');
      read.stored = count('stored') + read.before;
      read.refused = count('refused');
      read.state = 'stored';
    } catch (thrown) {
      if (!(thrown instanceof Refusal)) throw thrown;
      read.state = 'failed';
      read.why = thrown.message || Object.values(thrown.fields).join(' ');
    }
  }
}
