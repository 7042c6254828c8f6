/** New rows. */

import { tick } from 'svelte';
import type { Rows } from './rows.svelte';
import type { Method, Row } from './types';

/** Adds a row at the end of a list, and leads to its first field. */
export async function added<R extends Row>(rows: Rows<R>, fields: Omit<R, keyof Row>): Promise<void> {
  const row = { ...fields, id: newId(), revision: 0, position: 0 } as unknown as R;
  rows.add(row);
  await tick();
  const place = document.querySelector(`[data-row="${row.id}"]`);
  place?.scrollIntoView({ block: 'center' });
  place?.querySelector<HTMLElement>('input, select')?.focus({ preventScroll: true });
}

/** A random id; browsers give theirs to secure pages alone. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}

/** A method with every option as it usually is. */
export const usual: Method = {
  name: 'consensus',
  trim: 1,
  discard: 1.645,
  style: true,
  seat_weights: 'measured',
  outlier: 6,
  lean: 2,
  group_min: 11,
  hard_zero_majority: 'more-than-half',
  perception_zero: 'majority',
};
