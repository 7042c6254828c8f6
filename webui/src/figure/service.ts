/** What the editor, the office and the limits ask of the service. */

import { client, Failure, got } from '../lib/client';
import { office } from '../lib/office.svelte';
import type { Checked, Complaint, Limits, Question } from './check';
import { Refused } from './checking.svelte';
import type { WireSheet } from './sheet';

/** Whose sequence: nobody's, everybody's in a programme, or of one flight. */
export type Target = { kind: 'scratch' } | { kind: 'programme' | 'flight'; id: string };

export const targetName = (target: Target) =>
  target.kind === 'scratch' ? 'scratch' : `${target.kind}.${target.id}`;

interface Named {
  id: string;
  name: string;
}

/** A sequence as it is registered, with whose it is and what became of it. */
export interface Registered extends WireSheet {
  contest: Named;
  category: Named;
  programme: Named & { kind: string };
  flight?: { id?: string; number: number; pilot?: Named };
  /** Empty where nothing is registered. */
  digest: string;
  registered_at?: string;
  checked?: Checked;
  signed_off?: { at?: string; reason?: string };
  released_at?: string;
}

/** Somebody else registered another sequence meanwhile. */
export class Changed extends Error {}

const path = (target: Exclude<Target, { kind: 'scratch' }>) =>
  `/api/v1/${target.kind}s/${encodeURIComponent(target.id)}/sequence`;

export const check = (body: Question['body'], signal: AbortSignal): Promise<Checked> =>
  send<Checked>('POST', '/api/v1/sequence-checks', body, signal);

export const readSequence = (target: Exclude<Target, { kind: 'scratch' }>, signal: AbortSignal) =>
  send<Registered>('GET', path(target), undefined, signal);

export const register = (target: Exclude<Target, { kind: 'scratch' }>, sheet: WireSheet, replaces: string) =>
  send<Registered>('PUT', path(target), { ...sheet, replaces });

export const signOff = (target: Exclude<Target, { kind: 'scratch' }>, digest: string, reason: string) =>
  send<Registered>('POST', `${path(target)}/sign-off`, { digest, reason });

export const release = (target: Exclude<Target, { kind: 'scratch' }>, digest: string) =>
  send<Registered>('POST', `${path(target)}/release`, { digest });

export const readLimits = (category: string, signal: AbortSignal) =>
  send<Limits>('GET', `/api/v1/categories/${encodeURIComponent(category)}/limits`, undefined, signal);

export const setLimits = (category: string, limits: Limits) =>
  send<Limits>('PUT', `/api/v1/categories/${encodeURIComponent(category)}/limits`, limits);

/** Whose limits they are. */
export async function readCategory(
  category: string,
  signal: AbortSignal,
): Promise<{ contest: Named; category: Named }> {
  const params = { path: { category } };
  return got(client.GET('/api/v1/categories/{category}/results', { params, signal }));
}

/** What the service thinks of a token. */
export type Verdict = 'known' | 'unknown' | 'insecure' | 'away';

export async function judge(token: string): Promise<Verdict> {
  const headers = { Authorization: `Bearer ${token}` };
  const answer = await globalThis.fetch('/api/v1/contests?limit=1', { headers }).catch(() => undefined);
  if (!answer || answer.status >= 500 || answer.status === 429) return 'away';
  if (answer.ok) return 'known';
  return answer.status === 403 ? 'insecure' : 'unknown';
}

async function send<T>(method: string, to: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  const headers = new Headers();
  if (body !== undefined) headers.set('Content-Type', 'application/json');
  if (office.token) headers.set('Authorization', `Bearer ${office.token}`);
  const init: RequestInit = { method, headers };
  if (body !== undefined) init.body = JSON.stringify(body);
  if (signal) init.signal = signal;
  const response = await globalThis.fetch(to, init).catch((thrown: unknown): never => {
    throw new Failure('away', 0, String(thrown));
  });
  const answer = (await response.json().catch(() => undefined)) as unknown;
  if (response.ok) return answer as T;
  throw problem(response.status, answer);
}

function problem(status: number, answer: unknown): Error {
  const { detail, title, errors } = (answer ?? {}) as {
    detail?: string;
    title?: string;
    errors?: { pointer: string; message: string }[];
  };
  if (status === 409) return new Changed(detail ?? title);
  if (status === 422 && errors) {
    const complaints: Complaint[] = errors.map(({ pointer, message }) => ({ place: pointer, text: message }));
    return new Refused(complaints);
  }
  const kind = [400, 403, 404].includes(status) ? 'missing' : 'refused';
  return new Failure(kind, status, detail ?? title ?? '');
}

export interface FlightSequence {
  id: string;
  number: number;
  pilot: string;
  sequence: Registered | undefined;
}

/** How many flights' sequences are asked for at the same time. */
const atOnce = 4;

/** The sequences of a programme: the common one, or each flight's own. */
export async function readProgrammeSequences(
  programme: string,
  signal: AbortSignal,
): Promise<{ common: Registered | undefined; flights: FlightSequence[] }> {
  const params = { path: { programme } };
  const [common, standings] = await Promise.all([
    there(readSequence({ kind: 'programme', id: programme }, signal)),
    got(client.GET('/api/v1/programmes/{programme}/results', { params, signal })),
  ]);
  const own = ['free', 'freestyle'].includes(standings.programme.kind);
  const hasCommon = common !== undefined && common.items.length > 0;
  if (hasCommon || !own) return { common, flights: [] };
  const flights = standings.flights.map(({ id, number, pilot }): FlightSequence => ({
    id,
    number,
    pilot: pilot.name,
    sequence: undefined,
  }));
  const waiting = [...flights];
  const worker = async () => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      next.sequence = await there(readSequence({ kind: 'flight', id: next.id }, signal));
    }
  };
  await Promise.all(Array.from({ length: atOnce }, worker));
  return { common: undefined, flights };
}

/** What was asked for; nothing where there is none. */
async function there<T>(asked: Promise<T>): Promise<T | undefined> {
  try {
    return await asked;
  } catch (thrown) {
    if (thrown instanceof Failure && thrown.kind === 'missing') return undefined;
    throw thrown;
  }
}
