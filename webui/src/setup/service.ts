/** What the pages about a set-up ask of the service. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';
import type { ContestCopy, NewContest, Setup, SetupChange, SetupTable } from './types';

type Contest = components['schemas']['Contest'];

const at = (contest: string) => ({ params: { path: { contest } } });

export const readSetup = (contest: string, signal?: AbortSignal): Promise<Setup> =>
  got(client.GET('/api/v1/contests/{contest}/setup', { ...at(contest), ...(signal ? { signal } : {}) }));

export const changeSetup = (contest: string, body: SetupChange): Promise<Setup> =>
  sent(client.PATCH('/api/v1/contests/{contest}/setup', { ...at(contest), body }));

export const makeContest = (body: NewContest): Promise<Contest> =>
  sent(client.POST('/api/v1/contests', { body }));

export const copyContest = (from: string, body: ContestCopy): Promise<Contest> =>
  sent(client.POST('/api/v1/contests/{contest}/copies', { ...at(from), body }));

const table = (body: string) => ({
  headers: { 'Content-Type': 'text/csv' },
  body,
  bodySerializer: (text: string) => text,
});

/** What a table comes to; nothing is stored. */
export const readTable = (
  contest: string,
  list: 'pilots' | 'officials',
  text: string,
): Promise<SetupTable> =>
  list === 'pilots'
    ? sent(client.POST('/api/v1/contests/{contest}/pilots', { ...at(contest), ...table(text) }))
    : sent(client.POST('/api/v1/contests/{contest}/officials', { ...at(contest), ...table(text) }));

/** Where a list is to be had as a table. */
export const tableAddress = (contest: string, list: 'pilots' | 'officials'): string =>
  `/api/v1/contests/${encodeURIComponent(contest)}/${list}`;
