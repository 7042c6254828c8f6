/** What the page about devices asks of the service. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
export type Device = Schemas['Device'];
export type Named = Schemas['Named'];
export type NewPairing = Schemas['NewPairing'];
export type PairingMade = Schemas['PairingMade'];

export interface Devices {
  head: Schemas['Head'];
  contest: Named;
  devices: Device[];
  /** Everybody who may sit on a panel. */
  judges: Named[];
}

export async function readDevices(contest: string, signal: AbortSignal): Promise<Devices> {
  const asked = { params: { path: { contest } }, signal };
  const [{ devices }, setup] = await Promise.all([
    got(client.GET('/api/v1/contests/{contest}/devices', asked)),
    got(client.GET('/api/v1/contests/{contest}/setup', asked)),
  ]);
  const { head, contest: shown, officials } = setup;
  const judges = officials.filter(({ duty }) => duty === 'judge').map(({ id, name }) => ({ id, name }));
  return { head, contest: { id: contest, name: shown.name }, devices, judges };
}

export const offer = (contest: string, body: NewPairing): Promise<PairingMade> =>
  sent(client.POST('/api/v1/contests/{contest}/pairings', { params: { path: { contest } }, body }));

export const withdraw = (contest: string, device: string): Promise<unknown> =>
  sent(
    client.DELETE('/api/v1/contests/{contest}/devices/{device}', { params: { path: { contest, device } } }),
  );
