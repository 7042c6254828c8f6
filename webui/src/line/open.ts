/** What a page of the line begins with: the device that this browser is. */

import { LineDevice } from './device.svelte';
import { service } from './service';
import { LineStore } from './store/store';
import { Delivery } from './sync/delivery';
import { alone } from './sync/tabs';

/** The device of the latest pairing; nothing where this browser was never paired. */
export async function openDevice(): Promise<LineDevice | undefined> {
  const store = await LineStore.open();
  const [latest, ...former] = await store.pairings();
  if (!latest) return undefined;
  for (const { device } of former) void drain(store, device);
  const device = new LineDevice(store, latest, service);
  await device.start();
  return device;
}

/** What a former pairing left waiting goes out under its own seat. */
async function drain(store: LineStore, device: string): Promise<void> {
  const pairing = (await store.pairings()).find((one) => one.device === device);
  const { waiting } = await store.counts(device);
  if (!pairing || waiting === 0) return;
  const stop = new AbortController();
  const delivery = new Delivery(
    store,
    device,
    (records, signal) =>
      service.deliver({ device, store: pairing.store, records, unsent: waiting - records.length }, signal),
    (state) => state === 'resting' && stop.abort(),
  );
  await alone(
    `halfpoint-line/${device}`,
    stop.signal,
    (signal) => delivery.work(signal),
    () => {},
  );
}
