/** One thing that is done by the service when the reader says so: whether it is under way, and why it failed. */

import { Refusal } from './refusal';

export class Deed {
  doing = $state(false);
  refusal = $state.raw<Refusal>();

  /** Does it, once at a time; says whether it was done. */
  async do(work: () => Promise<unknown>): Promise<boolean> {
    if (this.doing) return false;
    this.doing = true;
    this.refusal = undefined;
    try {
      await work();
      return true;
    } catch (thrown) {
      if (!(thrown instanceof Refusal)) throw thrown;
      this.refusal = thrown;
      return false;
    } finally {
      this.doing = false;
    }
  }

  /** What is wrong with the field at a place in what was sent. */
  wrong(place: string): string {
    return this.refusal?.fields[place] ?? '';
  }

  /** What is wrong beside the fields. */
  get said(): string {
    return this.refusal?.message ?? '';
  }
}
