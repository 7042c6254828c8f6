/** What was written and is not registered yet, kept on this device for each target. */

import type { Seen } from './service';
import { newKey, type Sheet } from './sheet';

export interface Draft {
  sheet: Sheet;
  /** The registered sequence that the draft began from. */
  from: Seen;
  /** When it was last changed, as an ISO time. */
  at: string;
}

const name = (target: string) => `halfpoint.draft.${target}`;

/** Keeps a draft; tells whether this device let it. */
export function keep(target: string, draft: Draft): boolean {
  try {
    localStorage.setItem(name(target), JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

/** The draft kept here; nothing where there is none that can be read. */
export function kept(target: string): Draft | undefined {
  try {
    const draft = JSON.parse(localStorage.getItem(name(target)) ?? 'null') as Draft | null;
    if (!draft || !Array.isArray(draft.sheet.items) || typeof draft.from !== 'object') return undefined;
    const items = draft.sheet.items.map((item) => ({ ...item, key: newKey() }));
    return { ...draft, sheet: { ...draft.sheet, items } };
  } catch {
    return undefined;
  }
}

export function forget(target: string): void {
  try {
    localStorage.removeItem(name(target));
  } catch {
    // Storage is switched off: nothing was kept.
  }
}
