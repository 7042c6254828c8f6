/** What was typed into a set-up and is not saved, kept on this device for each contest. */

import type { Drafts } from './merge';
import type { ListName, Row } from './types';

export type AllDrafts = Partial<Record<ListName, Drafts<Row>>>;

const name = (contest: string) => `halfpoint.setup.${contest}`;

/** Keeps drafts, or forgets them where there are none; tells whether this device let it. */
export function keep(contest: string, drafts: AllDrafts): boolean {
  try {
    if (Object.keys(drafts).length === 0) localStorage.removeItem(name(contest));
    else localStorage.setItem(name(contest), JSON.stringify(drafts));
    return true;
  } catch {
    return false;
  }
}

export function kept(contest: string): AllDrafts {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(name(contest)) ?? '{}');
    return typeof found === 'object' && found !== null ? found : {};
  } catch {
    return {};
  }
}
