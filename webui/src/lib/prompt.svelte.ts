/** What the service asks of the reader in the middle of something: to sign in, or for the password again. */

export type Wanted = 'sign-in' | 'password-again';

class Prompt {
  wanted = $state<Wanted>();
  #waiting: { wanted: Wanted; answer: Promise<boolean>; give: (done: boolean) => void } | undefined;

  /** Asks, and says whether the reader did it; those who ask for the same at once wait for one answer. */
  async ask(wanted: Wanted): Promise<boolean> {
    while (this.#waiting && this.#waiting.wanted !== wanted) await this.#waiting.answer;
    if (!this.#waiting) {
      let give: (done: boolean) => void = () => {};
      const answer = new Promise<boolean>((resolve) => (give = resolve));
      this.#waiting = { wanted, answer, give };
      this.wanted = wanted;
    }
    return this.#waiting.answer;
  }

  /** The reader has done it, or would not. */
  answer(done: boolean): void {
    this.#waiting?.give(done);
    this.#waiting = undefined;
    this.wanted = undefined;
  }
}

export const prompt = new Prompt();
