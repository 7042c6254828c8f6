/** Numbers as they are shown: always the same decimals, a real minus sign. */

/** `7.30`; nothing where there is no number. */
export function fixed(value: number | undefined, decimals: number): string {
  if (value === undefined) return '';
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** How many decimals these K need, so that all are shown alike: one or none. */
export function decimalsOf(ks: Iterable<number>): number {
  return [...ks].some((k) => k % 1 !== 0) ? 1 : 0;
}

/** `14`, `8.5`: with a decimal where it needs one. */
export function short(value: number): string {
  return fixed(value, decimalsOf([value]));
}

/** `+4.6`, `−4.6`, `0.0`; nothing where there is no number. */
export function signed(value: number | undefined, decimals: number): string {
  const text = fixed(value, decimals);
  return value !== undefined && value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** A share from 0 to 1 in whole per cent, never 0 or 100 where it is neither. */
export function percentOf(share: number): number {
  if (share <= 0) return 0;
  if (share >= 1) return 100;
  return Math.min(99, Math.max(1, Math.round(100 * share)));
}
