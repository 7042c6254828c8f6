/** What each page of published results reads. */

import { client, got } from '../lib/client';
import { readContest } from '../results/read';
import type { Changes, Publication, Sheets, Summary } from './types';

/** A publication among all that the contest has published. */
export interface Shown {
  publication: Publication;
  /** Of the same programme or category, by number. */
  same: Summary[];
}

export async function readPublication(publication: string, signal: AbortSignal): Promise<Shown> {
  return among(
    await got(
      client.GET('/api/v1/publications/{publication}', { params: { path: { publication } }, signal }),
    ),
    signal,
  );
}

/** What is published last of a programme or a category. */
export async function readLatest(
  of: 'programme' | 'category',
  id: string,
  signal: AbortSignal,
): Promise<Shown> {
  const asked =
    of === 'programme'
      ? client.GET('/api/v1/programmes/{programme}/publications/latest', {
          params: { path: { programme: id } },
          signal,
        })
      : client.GET('/api/v1/categories/{category}/publications/latest', {
          params: { path: { category: id } },
          signal,
        });
  return among(await got(asked), signal);
}

async function among(publication: Publication, signal: AbortSignal): Promise<Shown> {
  const all = await readList(publication.contest.id, signal);
  return { publication, same: all.filter((one) => sameOf(one, publication.about)) };
}

export function sameOf(a: Summary, b: Summary): boolean {
  return a.category.id === b.category.id && a.programme?.id === b.programme?.id;
}

export async function readList(contest: string, signal: AbortSignal): Promise<Summary[]> {
  const { publications } = await got(
    client.GET('/api/v1/contests/{contest}/publications', { params: { path: { contest } }, signal }),
  );
  return publications;
}

/** All that a contest has published, and the contest. */
export async function readContestList(contest: string, signal: AbortSignal) {
  const [about, list] = await Promise.all([readContest(contest, signal), readList(contest, signal)]);
  return { head: about.head, contest: { id: about.id, name: about.name }, list };
}

export function readSheets(publication: string, signal: AbortSignal): Promise<Sheets> {
  return got(
    client.GET('/api/v1/publications/{publication}/sheets', { params: { path: { publication } }, signal }),
  );
}

export function readChanges(publication: string, since: string, signal: AbortSignal): Promise<Changes> {
  return got(
    client.GET('/api/v1/publications/{publication}/changes', {
      params: { path: { publication }, query: { since } },
      signal,
    }),
  );
}
