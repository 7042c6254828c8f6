/** The service, as this application asks it. */

import createClient from 'openapi-fetch';
import type { components, paths } from './api';
import { ask } from './ask';

/** Every request of the application; openapi-fetch keeps the `fetch` it is made with, so it is looked up late. */
export const client = createClient<paths>({
  baseUrl: location.origin,
  fetch: ask,
});

/** Why something could not be read. */
export class Failure extends Error {
  constructor(
    readonly kind: 'away' | 'missing' | 'refused',
    readonly status: number,
    readonly detail: string,
  ) {
    super(detail);
  }

  /** What was thrown, as a failure: what says nothing of itself is a network that is away. */
  static of(thrown: unknown): Failure {
    return thrown instanceof Failure ? thrown : new Failure('away', 0, String(thrown));
  }

  /** True where trying again may help. */
  get passing(): boolean {
    return this.kind === 'away' || this.status >= 500 || this.status === 429;
  }
}

type Answer<T> = { data?: T; error?: unknown; response: Response };

/** What an answer carries; throws a `Failure` where it carries nothing. */
export async function got<T>(asked: Promise<Answer<T>>): Promise<T> {
  const { data, error, response } = await asked.catch((thrown: unknown): never => {
    throw Failure.of(thrown);
  });
  if (response.ok && data !== undefined) return data;
  const kind = [400, 403, 404].includes(response.status) ? 'missing' : 'refused';
  throw new Failure(kind, response.status, problemText(error) || response.statusText);
}

function problemText(error: unknown): string {
  const problem = (error ?? {}) as Partial<components['schemas']['Problem']>;
  return problem.detail || problem.title || '';
}
