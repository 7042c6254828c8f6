/** What the pages of publishing read and do. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
export type Preview = Schemas['PublicationPreview'];
export type Publishing = Schemas['Publishing'];
export type State = Schemas['PublicationState'];
export type Protest = Schemas['Protest'];
export type Needs = Schemas['NeedList'];
export type Audit = Schemas['Audit'];

/** What is published: of a programme, or of a category over its programmes. */
export interface Scope {
  of: 'programme' | 'category';
  id: string;
}

export function readPreview({ of, id }: Scope, state: State, signal: AbortSignal): Promise<Preview> {
  const query = { state };
  return got(
    of === 'programme'
      ? client.GET('/api/v1/programmes/{programme}/publications/next', {
          params: { path: { programme: id }, query },
          signal,
        })
      : client.GET('/api/v1/categories/{category}/publications/next', {
          params: { path: { category: id }, query },
          signal,
        }),
  );
}

export function publish({ of, id }: Scope, body: Publishing): Promise<Schemas['Publication']> {
  return sent(
    of === 'programme'
      ? client.POST('/api/v1/programmes/{programme}/publications', {
          params: { path: { programme: id } },
          body,
        })
      : client.POST('/api/v1/categories/{category}/publications', {
          params: { path: { category: id } },
          body,
        }),
  );
}

export const decideCounting = (programme: string, body: Schemas['Counting']): Promise<unknown> =>
  sent(client.POST('/api/v1/programmes/{programme}/counting', { params: { path: { programme } }, body }));

export const fileProtest = (programme: string, body: Schemas['NewProtest']): Promise<unknown> =>
  sent(client.POST('/api/v1/programmes/{programme}/protests', { params: { path: { programme } }, body }));

export const decideProtest = (protest: string, body: Schemas['NewDecision']): Promise<unknown> =>
  sent(client.POST('/api/v1/protests/{protest}/decision', { params: { path: { protest } }, body }));

/** The protests against a programme, as far as they are the reader's to see, and what they are against. */
export async function readProtests(programme: string, signal: AbortSignal) {
  const asked = { params: { path: { programme } }, signal };
  const [about, { protests }, { publications }] = await Promise.all([
    got(client.GET('/api/v1/programmes/{programme}', asked)),
    got(client.GET('/api/v1/programmes/{programme}/protests', asked)),
    got(client.GET('/api/v1/programmes/{programme}/publications', asked)),
  ]);
  return { ...about, protests, publications };
}

/** Who flies the programme, for the office. */
export async function readFlights(programme: string, signal: AbortSignal) {
  const { flights } = await got(
    client.GET('/api/v1/programmes/{programme}/results', { params: { path: { programme } }, signal }),
  );
  return flights.map(({ id, number, pilot }) => ({ id, number, pilot }));
}

export function readNeeds(contest: string, signal: AbortSignal): Promise<Needs> {
  return got(client.GET('/api/v1/contests/{contest}/needs', { params: { path: { contest } }, signal }));
}

export const audit = (contest: string): Promise<Audit> =>
  sent(client.GET('/api/v1/contests/{contest}/audit', { params: { path: { contest } } }));
