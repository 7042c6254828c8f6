/** A text that is written and not saved yet, kept on this device through a reload. */

export interface Draft {
  text: string;
  /** What was saved when it was begun. */
  over: string;
}

/** Which text it is. */
export const place = {
  note: (contest: string, pilot: string) => `note.${contest}.${pilot}`,
  description: (flight: string) => `description.${flight}`,
  /** By a pilot alone, or by the office for any. */
  protest: (programme: string, pilots: { id: string }[]) =>
    `protest.${programme}.${pilots.length === 1 ? pilots[0]?.id : 'office'}`,
};

export class Unsaved {
  /** Nothing where nothing was written since it was saved. */
  draft = $state.raw<Draft>();
  /** Whether the draft was written before this page was opened. */
  found = $state(false);
  /** Whether this browser lets it be kept. */
  keeps = $state(true);

  readonly #name: string;

  constructor(at: string) {
    this.#name = `halfpoint.text.${at}`;
    this.draft = this.#kept();
    this.found = this.draft !== undefined;
  }

  /** Keeps a text as it stands over what is saved; the saved one is no draft. */
  write(text: string, saved: string): void {
    const over = this.draft?.over ?? saved;
    this.found = false;
    this.#set(text === saved ? undefined : { text, over });
  }

  /** What was sent is saved: what was written meanwhile stands over that. */
  saved(sent: string, as: string): void {
    this.found = false;
    const text = this.draft?.text ?? sent;
    this.#set(text === sent ? undefined : { text, over: as });
  }

  discard(): void {
    this.found = false;
    this.#set(undefined);
  }

  #set(draft: Draft | undefined): void {
    this.draft = draft;
    try {
      if (draft) localStorage.setItem(this.#name, JSON.stringify(draft));
      else localStorage.removeItem(this.#name);
      this.keeps = true;
    } catch {
      this.keeps = draft === undefined;
    }
  }

  #kept(): Draft | undefined {
    try {
      const draft = JSON.parse(localStorage.getItem(this.#name) ?? 'null') as Draft | null;
      return typeof draft?.text === 'string' && typeof draft.over === 'string' ? draft : undefined;
    } catch {
      return undefined;
    }
  }
}
