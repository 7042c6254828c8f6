/** What is asked of the service so that something is done, and what is made of its refusals. */

import type { components } from './api';
import { m } from './messages/refusal';

type Problem = Partial<components['schemas']['Problem']>;

/** Why the service would not do it: in a sentence, and beside the fields that are wrong. */
export class Refusal extends Error {
  constructor(
    /** The kind of problem, or `away`. */
    readonly kind: string,
    message: string,
    /** By the field's place in what was sent: `/account/email`. */
    readonly fields: Record<string, string> = {},
  ) {
    super(message);
  }
}

type Answer<T> = { data?: T; error?: unknown; response: Response };

/** What is answered; throws a `Refusal`. */
export async function sent<T>(asked: Promise<Answer<T>>): Promise<T> {
  const { data, error, response } = await asked.catch((): never => {
    throw new Refusal('away', m.failed.away);
  });
  if (response.ok) return data as T;
  throw refusal((error ?? {}) as Problem, response);
}

function refusal(problem: Problem, response: Response): Refusal {
  const kind = problem.type?.split('#')[1] ?? '';
  const fields = Object.fromEntries((problem.errors ?? []).map(({ pointer, message }) => [pointer, message]));
  if (Object.keys(fields).length > 0) return new Refusal(kind, '', fields);
  return new Refusal(kind, sentence(kind, problem, response));
}

function sentence(kind: string, problem: Problem, response: Response): string {
  if (kind === 'too-many') return m.failed['too-many'](response.headers.get('Retry-After') ?? '');
  if (kind === 'wrong-sign-in' || kind === 'wrong-code' || kind === 'insecure' || kind === 'link') {
    return m.failed[kind];
  }
  if (response.status === 409 && problem.detail) return m.failed.conflict(problem.detail);
  return m.failed.other(response.status, problem.detail ?? problem.title ?? '');
}
