/** What the page of a running order asks of the service. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
export type Order = Schemas['RunningOrder'];
export type Turn = Schemas['Turn'];
export type Pilot = Schemas['Pilot'];
export type Draw = Schemas['OrderDraw'];
export type Named = Schemas['Named'];

const at = (programme: string) => ({ params: { path: { programme } } });

export const readOrder = (programme: string, signal: AbortSignal): Promise<Order> =>
  got(client.GET('/api/v1/programmes/{programme}/order', { ...at(programme), signal }));

export const change = (programme: string, revision: number, pilots: string[]): Promise<Order> =>
  sent(client.PUT('/api/v1/programmes/{programme}/order', { ...at(programme), body: { revision, pilots } }));

export const draw = (programme: string, body: Draw): Promise<Order> =>
  sent(client.POST('/api/v1/programmes/{programme}/order/draw', { ...at(programme), body }));

/** The programmes of a category, by whose standing an order can be drawn. */
export async function readProgrammes(of: Order, signal: AbortSignal): Promise<Named[]> {
  const params = { path: { contest: of.contest.id } };
  const { categories } = await got(client.GET('/api/v1/contests/{contest}', { params, signal }));
  const category = categories.find(({ id }) => id === of.category.id);
  return (category?.programmes ?? []).map(({ id, name }) => ({ id, name }));
}
