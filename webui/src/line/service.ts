/** What a device asks of the service. Every request is bounded in time: on a field, no answer is an answer. */

import { Failure } from '../lib/client';
import type { Item, Plan } from './plan';
import type { LineRecord } from './records/record';
import type { Answer } from './sync/answer';

export interface LineService {
  plan(row: string, unsent: number, signal: AbortSignal): Promise<Plan>;
  /** The items of the sequence that a flight flies. */
  items(flight: string, signal: AbortSignal): Promise<Item[]>;
  deliver(delivery: Sent, signal: AbortSignal): Promise<Answer>;
}

export interface Sent {
  device: string;
  store: string;
  records: LineRecord[];
  /** How many wait here after these. */
  unsent: number;
}

const patienceMs = 10_000;
const base = '/api/v1/line';

export const service: LineService = {
  plan: (row, unsent, signal) => ask(`${base}?store=${row}&unsent=${unsent}`, {}, signal),
  items: async (flight, signal) => {
    const { items } = await ask<{ items: Item[] }>(`${base}/flights/${flight}`, {}, signal);
    return items;
  },
  deliver: (delivery, signal) => ask(`${base}/records`, posted(delivery), signal),
};

const posted = (body: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

async function ask<T>(path: string, init: RequestInit, signal: AbortSignal): Promise<T> {
  const bounded = AbortSignal.any([signal, AbortSignal.timeout(patienceMs)]);
  const response = await fetch(path, { ...init, signal: bounded, cache: 'no-store' });
  if (response.ok) return (await response.json()) as T;
  throw new Failure('refused', response.status, await response.text());
}
