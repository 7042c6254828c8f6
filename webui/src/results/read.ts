/** What each results page reads. */

import { client, got } from '../lib/client';
import type { CategoryStandings, Contest, ContestSummary, Sheet, Standings } from './types';

export function readStandings(programme: string, signal: AbortSignal): Promise<Standings> {
  return got(
    client.GET('/api/v1/programmes/{programme}/results', { params: { path: { programme } }, signal }),
  );
}

export function readCategory(category: string, signal: AbortSignal): Promise<CategoryStandings> {
  return got(client.GET('/api/v1/categories/{category}/results', { params: { path: { category } }, signal }));
}

export function readSheet(flight: string, signal: AbortSignal): Promise<Sheet> {
  return got(client.GET('/api/v1/flights/{flight}/result', { params: { path: { flight } }, signal }));
}

export type ContestShown = Contest & { contest: { id: string } };

export async function readContest(contest: string, signal: AbortSignal): Promise<ContestShown> {
  const found = await got(
    client.GET('/api/v1/contests/{contest}', { params: { path: { contest } }, signal }),
  );
  return { ...found, contest: { id: found.id } };
}

/** All of them, page after page. */
export async function readContests(signal: AbortSignal): Promise<ContestSummary[]> {
  const all: ContestSummary[] = [];
  let after: string | undefined;
  do {
    const query = after === undefined ? { limit: 200 } : { limit: 200, after };
    const page = await got(client.GET('/api/v1/contests', { params: { query }, signal }));
    all.push(...page.contests);
    after = page.next;
  } while (after !== undefined);
  return all;
}
