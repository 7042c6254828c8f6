/** What the pages about a set-up ask of the service, and what they make of its refusals. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import type { ContestCopy, NewContest, Setup, SetupChange, SetupTable } from './types';

type Problem = components['schemas']['Problem'];
type Contest = components['schemas']['Contest'];

/** Why the service would not do it. */
export class Refusal extends Error {
  constructor(
    readonly kind: 'away' | 'conflict' | 'wrong' | 'other',
    readonly status: number,
    detail: string,
    readonly errors: { pointer: string; message: string }[] = [],
  ) {
    super(detail);
  }
}

type Answer<T> = { data?: T; error?: unknown; response: Response };

/** What is answered; throws a `Refusal`. */
async function sent<T>(asked: Promise<Answer<T>>): Promise<T> {
  const { data, error, response } = await asked.catch((thrown: unknown): never => {
    throw new Refusal('away', 0, String(thrown));
  });
  if (response.ok && data !== undefined) return data;
  const { detail, title, errors = [] } = (error ?? {}) as Partial<Problem>;
  throw new Refusal(
    kindOf(response.status, errors),
    response.status,
    detail || title || response.statusText,
    errors,
  );
}

function kindOf(status: number, errors: object[]): Refusal['kind'] {
  if (status === 409) return 'conflict';
  return errors.length > 0 ? 'wrong' : 'other';
}

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
