/** What the pages read and write of what an announcer tells of a pilot. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
export type ToldOfPilot = Schemas['ToldOfPilot'];
export type ToldFlight = Schemas['ToldFlight'];
type Telling = Schemas['Telling'];

export const readTold = (contest: string, pilot: string, signal?: AbortSignal): Promise<ToldOfPilot> =>
  got(
    client.GET('/api/v1/contests/{contest}/pilots/{pilot}/told', {
      params: { path: { contest, pilot } },
      ...(signal ? { signal } : {}),
    }),
  );

export const putNote = (contest: string, pilot: string, body: Telling): Promise<ToldOfPilot> =>
  sent(
    client.PUT('/api/v1/contests/{contest}/pilots/{pilot}/note', {
      params: { path: { contest, pilot } },
      body,
    }),
  );

export const putDescription = (flight: string, body: Telling): Promise<ToldOfPilot> =>
  sent(client.PUT('/api/v1/flights/{flight}/description', { params: { path: { flight } }, body }));
