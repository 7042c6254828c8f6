/** What a page of the line begins with: the device that this browser is. */

import { LineDevice } from './device.svelte';
import { service } from './service';
import { LineStore } from './store/store';

/** The device of the latest pairing; nothing where this browser was never paired. */
export async function openDevice(): Promise<LineDevice | undefined> {
  const store = await LineStore.open();
  const [latest] = await store.pairings();
  if (!latest) return undefined;
  const device = new LineDevice(store, latest, service);
  await device.start();
  return device;
}
