/** What was typed into a row, laid over what was read: once, and again after others have changed it. */

import { alike, places, read, same, write } from './fields';
import type { Row } from './types';

export interface Draft<R> {
  /** The row as it was read; nothing for a new one. */
  from?: R | undefined;
  row: R;
  /** It is to be taken out. */
  removed?: boolean;
  /** Somebody else took it out meanwhile. */
  gone?: boolean;
  /** What somebody else put into fields that were changed here too. */
  theirs: Record<string, unknown>;
}

export type Drafts<R> = Record<string, Draft<R>>;

export const clashes = (draft: Draft<Row>): boolean =>
  draft.gone === true || Object.keys(draft.theirs).length > 0;

/** A draft on top of the row as it is now; nothing where there is nothing left to save. */
function rebased<R extends Row>(draft: Draft<R>, now: R | undefined): Draft<R> | undefined {
  const { from, row } = draft;
  if (!now) {
    if (!from) return draft;
    return draft.removed ? undefined : { ...draft, gone: true };
  }
  // What somebody else changed is not taken out unseen: it stays.
  if (draft.removed) return from?.revision === now.revision ? { ...draft, from: now } : undefined;
  let next = { ...row, revision: now.revision };
  const theirs: Record<string, unknown> = {};
  for (const place of places(now)) {
    const [mine, others] = [read(row, place), read(now, place)];
    const wasTheirs = place in draft.theirs;
    const changedThere = from ? !same(read(from, place), others) || wasTheirs : false;
    if (!changedThere || same(mine, others)) continue;
    if (from && same(mine, read(from, place)) && !wasTheirs) next = write(next, place, others);
    else theirs[place] = others;
  }
  const draftNow = { from: now, row: next, theirs };
  return alike(next, now) && !clashes(draftNow) ? undefined : draftNow;
}

/** All drafts on top of the rows as they are now. */
export function rebasedAll<R extends Row>(drafts: Drafts<R>, now: R[]): Drafts<R> {
  const there = new Map(now.map((row) => [row.id, row]));
  const left = Object.entries(drafts).flatMap(([id, draft]) => {
    const next = rebased(draft, there.get(id));
    return next ? [[id, next] as const] : [];
  });
  return Object.fromEntries(left);
}

/** Every row as it is to be seen, in order. */
export function laid<R extends Row>(drafts: Drafts<R>, now: R[]): R[] {
  const there = new Set(now.map(({ id }) => id));
  const own = Object.values(drafts).flatMap(({ row }) => (there.has(row.id) ? [] : [row]));
  return [...now.map((row) => drafts[row.id]?.row ?? row), ...own].sort((a, b) => a.position - b.position);
}

/** The drafts with another row typed; one that comes to be as it was read is none. */
export function drafted<R extends Row>(drafts: Drafts<R>, row: R, read: R | undefined): Drafts<R> {
  const { [row.id]: draft, ...others } = drafts;
  const from = draft ? draft.from : read;
  const theirs = draft?.theirs ?? {};
  const back = from !== undefined && alike(from, row) && !draft?.gone && Object.keys(theirs).length === 0;
  return back ? others : { ...others, [row.id]: { ...draft, from, row, removed: false, theirs } };
}
