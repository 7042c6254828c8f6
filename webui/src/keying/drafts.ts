/** What is typed of a paper sheet and not sent yet, kept on this device through a reload. */

export interface Draft {
  /** Of the reading: sent twice, it is one. */
  id: string;
  texts: string[];
  signed: boolean;
  /** How many readings there were when it was begun. */
  after: number;
}

const name = (flight: string, judge: string) => `halfpoint.paper.${flight}.${judge}`;

export function keep(flight: string, judge: string, draft: Draft): void {
  try {
    localStorage.setItem(name(flight, judge), JSON.stringify(draft));
  } catch {
    // Storage is switched off: it is kept until the page is left.
  }
}

/** What was kept for a sheet of so many items, of which so many readings were made; nothing where there is none. */
export function kept(flight: string, judge: string, items: number, after: number): Draft | undefined {
  try {
    const draft = JSON.parse(localStorage.getItem(name(flight, judge)) ?? 'null') as Draft | null;
    return draft?.texts.length === items && draft.after === after ? draft : undefined;
  } catch {
    return undefined;
  }
}

export function forget(flight: string, judge: string): void {
  try {
    localStorage.removeItem(name(flight, judge));
  } catch {
    // Storage is switched off: nothing was kept.
  }
}
