/** What is asked of the service so that something is done, and what is made of its refusals. */

import type { components } from './api';
import { m } from './messages/refusal';

type Problem = Partial<components['schemas']['Problem']>;
type Complaint = components['schemas']['Complaint'];

/** Why the service would not do it: in a sentence, and beside the fields that are wrong. */
export class Refusal extends Error {
  constructor(
    /** The kind of problem, or `away`. */
    readonly kind: string,
    message: string,
    /** Of the answer; 0 where none came. */
    readonly status = 0,
    /** In the service's own words, for pages that have a sentence of their own around them. */
    readonly detail = '',
    /** What is wrong, and at which place of what was sent. */
    readonly errors: Complaint[] = [],
  ) {
    super(message);
  }

  /** What is wrong, by the field's place in what was sent: `/account/email`. */
  get fields(): Record<string, string> {
    return Object.fromEntries(this.errors.map(({ pointer, message }) => [pointer, message]));
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
  const { detail, title, errors = [] } = problem;
  const said = errors.length > 0 ? '' : sentence(kind, problem, response);
  return new Refusal(kind, said, response.status, detail || title || response.statusText, errors);
}

function sentence(kind: string, problem: Problem, response: Response): string {
  if (kind === 'too-many') return m.failed['too-many'](response.headers.get('Retry-After') ?? '');
  if (kind === 'wrong-sign-in' || kind === 'wrong-code' || kind === 'insecure' || kind === 'link') {
    return m.failed[kind];
  }
  if (response.status === 409 && problem.detail) return m.failed.conflict(problem.detail);
  return m.failed.other(response.status, problem.detail ?? problem.title ?? '');
}
