/** The devices of a contest as the office reads them. */

import type { Device, Named, PairingMade } from './service';

/** A device that works is heard of every ten seconds; after six times that it is silent. */
const silentMs = 60_000;

export const isSilent = ({ last_contact }: Device, now: number): boolean =>
  last_contact === undefined || now - Date.parse(last_contact) > silentMs;

export const inUse = (devices: readonly Device[]): Device[] => devices.filter(({ withdrawn }) => !withdrawn);

/** Another device in use has the same seat in the same role. */
export const hasTwin = (device: Device, devices: readonly Device[]): boolean =>
  device.judge !== undefined &&
  inUse(devices).some(
    (other) => other.id !== device.id && other.role === device.role && other.judge?.id === device.judge?.id,
  );

/** The judges for whom no tablet is in use. */
export function withoutTablet(judges: readonly Named[], devices: readonly Device[]): Named[] {
  const seated = inUse(devices).flatMap(({ role, judge }) => (role === 'judge' ? (judge?.id ?? []) : []));
  return judges.filter(({ id }) => !seated.includes(id));
}

/** The device that took an offer: one of its role and seat that was not there before. */
export function takenBy(
  { offer }: PairingMade,
  before: readonly string[],
  devices: readonly Device[],
): Device | undefined {
  const isNew = ({ id }: Device) => !before.includes(id);
  return devices.find((one) => isNew(one) && one.role === offer.role && one.judge?.id === offer.judge?.id);
}

/** `ACDE-3467` */
export const readable = (code: string): string => `${code.slice(0, 4)}-${code.slice(4)}`;

const ofThisMachine = ['localhost', '127.0.0.1', '[::1]'];

/**
 * Where tablets reach the service, the best first: what it says of itself, else
 * where this page was opened, unless that is the machine itself.
 */
export function addressesOf(
  said: readonly string[],
  { hostname, origin }: Pick<Location, 'hostname' | 'origin'>,
): readonly string[] {
  if (said.length > 0) return said;
  return ofThisMachine.includes(hostname) ? [] : [origin];
}
