/** What changed since a publication, in words. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { m } from '../lib/messages/since';

export type Since = components['schemas']['ChangesSince'];
type Change = components['schemas']['PublishedChange'];

export function readSince(of: 'programme' | 'category', id: string, signal: AbortSignal): Promise<Since> {
  return got(
    of === 'programme'
      ? client.GET('/api/v1/programmes/{programme}/results/changes', {
          params: { path: { programme: id } },
          signal,
        })
      : client.GET('/api/v1/categories/{category}/results/changes', {
          params: { path: { category: id } },
          signal,
        }),
  );
}

/** Of whom, and what became of rank and score: `rank 2, was 4; score 1184.57, was 1180.00`. */
export interface Told {
  key: string;
  name: string;
  words: string;
}

/** One for each pilot or team; whoever stands highest now comes first, whoever lost the rank last. */
export function toldOf(changes: Change[]): Told[] {
  const whose = new Map<string, Change[]>();
  for (const change of changes) {
    const key = change.pilot ?? '';
    whose.set(key, [...(whose.get(key) ?? []), change]);
  }
  return [...whose].sort(byRank).map(([key, list]) => ({
    key,
    name: list[0]?.name ?? '',
    words: (['rank', 'score', 'total'] as const)
      .flatMap((what) =>
        list.filter((one) => one.what === what).map(({ to, from }) => m.since[what](to, from)),
      )
      .join('; '),
  }));
}

function byRank([, a]: [string, Change[]], [, b]: [string, Change[]]): number {
  return rankOf(a) - rankOf(b) || 0;
}

function rankOf(changes: Change[]): number {
  const to = changes.find(({ what }) => what === 'rank')?.to;
  return to === undefined ? 1e6 : to === '' ? 2e6 : Number(to);
}
