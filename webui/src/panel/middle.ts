/** A panel in all, as it stands beside one of its judges. */

import type { Judge, Middle } from './service';

const keys = [
  'difference',
  'deviation',
  'pearson',
  'order_disagreement',
  'distrusted',
  'weight',
  'accuracy',
] as const;

/** The middle value of each number over the seats that have it. */
export function middleOf(judges: Judge[]): Middle {
  const middle: Middle = {};
  for (const key of keys) {
    const values = judges.flatMap((judge) => judge[key] ?? []).sort((a, b) => a - b);
    const low = values[Math.floor((values.length - 1) / 2)];
    const high = values[Math.ceil((values.length - 1) / 2)];
    if (low !== undefined && high !== undefined) middle[key] = (low + high) / 2;
  }
  return middle;
}

/** How often all seats together gave each grade. */
export function sumOf(judges: Judge[]): number[] {
  const sums = Array.from({ length: 21 }, () => 0);
  for (const { given } of judges) given.forEach((n, i) => (sums[i] = (sums[i] ?? 0) + n));
  return sums;
}
