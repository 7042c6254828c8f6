/** What the editor, the office and the limits ask of the service. */

import type { components } from '../lib/api';
import { client, Failure } from '../lib/client';
import { Refused } from './checking.svelte';
import type { Body, CategoryLimits, Checked, Limits, Registered, SequenceList, WireSheet } from './types';

/** Whose sequence: nobody's, everybody's in a programme, or of one flight. */
export type Target = { kind: 'scratch' } | Owned;
export type Owned = { kind: 'programme' | 'flight'; id: string };

export const targetName = (target: Target) =>
  target.kind === 'scratch' ? 'scratch' : `${target.kind}.${target.id}`;

/** Somebody else registered another sequence meanwhile. */
export class Changed extends Error {}

/** Which registered sequence was seen. */
export interface Seen {
  digest: string;
  revision: number;
}

export const check = (body: Body, signal: AbortSignal): Promise<Checked> =>
  answered(client.POST('/api/v1/sequence-checks', { body, signal }));

export function readSequence({ kind, id }: Owned, signal: AbortSignal): Promise<Registered> {
  if (kind === 'flight') {
    return answered(client.GET('/api/v1/flights/{flight}/sequence', { ...at.flight(id), signal }));
  }
  return answered(client.GET('/api/v1/programmes/{programme}/sequence', { ...at.programme(id), signal }));
}

export function register(
  { kind, id }: Owned,
  sheet: WireSheet,
  { digest, revision }: Seen,
): Promise<Registered> {
  const body = { ...sheet, replaces: digest, revision };
  return kind === 'flight'
    ? answered(client.PUT('/api/v1/flights/{flight}/sequence', { ...at.flight(id), body }))
    : answered(client.PUT('/api/v1/programmes/{programme}/sequence', { ...at.programme(id), body }));
}

export function signOff({ kind, id }: Owned, seen: Seen, reason: string): Promise<Registered> {
  const body = { ...seen, reason };
  return kind === 'flight'
    ? answered(client.POST('/api/v1/flights/{flight}/sequence/sign-off', { ...at.flight(id), body }))
    : answered(
        client.POST('/api/v1/programmes/{programme}/sequence/sign-off', { ...at.programme(id), body }),
      );
}

export const release = ({ id }: Owned, seen: Seen): Promise<Registered> =>
  answered(
    client.POST('/api/v1/programmes/{programme}/sequence/release', { ...at.programme(id), body: seen }),
  );

export const readSequences = (programme: string, signal: AbortSignal): Promise<SequenceList> =>
  answered(client.GET('/api/v1/programmes/{programme}/sequences', { ...at.programme(programme), signal }));

export const readLimits = (category: string, signal: AbortSignal): Promise<CategoryLimits> =>
  answered(client.GET('/api/v1/categories/{category}/limits', { params: { path: { category } }, signal }));

export const setLimits = (category: string, limits: Limits, note: string): Promise<CategoryLimits> =>
  answered(
    client.PUT('/api/v1/categories/{category}/limits', {
      params: { path: { category } },
      body: { limits, note },
    }),
  );

/** The organiser's table of numbers and K, as text of two columns. */
export const readNumbers = (contest: string, signal: AbortSignal): Promise<string> =>
  answered(
    client.GET('/api/v1/contests/{contest}/numbers', {
      params: { path: { contest } },
      parseAs: 'text',
      signal,
    }),
  );

export const setNumbers = (contest: string, table: string): Promise<{ numbers: number }> =>
  answered(
    client.PUT('/api/v1/contests/{contest}/numbers', {
      params: { path: { contest } },
      headers: { 'Content-Type': 'text/csv' },
      body: table,
      bodySerializer: (text) => text,
    }),
  );

const at = {
  programme: (programme: string) => ({ params: { path: { programme } } }),
  flight: (flight: string) => ({ params: { path: { flight } } }),
};

type Answer<T> = { data?: T; error?: unknown; response: Response };

/** What an answer carries; throws `Changed`, `Refused` or a `Failure` where it carries nothing. */
async function answered<T>(asked: Promise<Answer<T>>): Promise<T> {
  const { data, error, response } = await asked.catch((thrown: unknown): never => {
    throw Failure.of(thrown);
  });
  if (response.ok && data !== undefined) return data;
  throw problem(response, (error ?? {}) as Partial<components['schemas']['Problem']>);
}

function problem(
  { status, statusText }: Response,
  { detail, title, errors }: Partial<components['schemas']['Problem']>,
): Error {
  const said = detail || title || statusText;
  if (status === 409) return new Changed(said);
  if (errors && errors.length > 0) {
    return new Refused(errors.map(({ pointer, message }) => ({ place: pointer, text: message })));
  }
  const kind = [400, 403, 404].includes(status) ? 'missing' : 'refused';
  return new Failure(kind, status, said);
}
