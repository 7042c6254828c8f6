/**
 * Times and days as they are read out. Written here and not by `Intl`, whose first
 * use takes a browser longer than all the rest of a page's first picture.
 */

import { m } from './messages';

const two = (n: number) => String(n).padStart(2, '0');

/** `14:20` */
export function clock(at: Date): string {
  return `${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** `12 June 2026` */
export function day(at: Date): string {
  return m.times.day([at.getDate(), at.getMonth(), at.getFullYear()]);
}

/** `12 June 2026, 14:20` */
export function moment(time: string | Date): string {
  const at = new Date(time);
  return `${day(at)}, ${clock(at)}`;
}

/** `12–14 June 2026` for `2026-06-12` to `2026-06-14`; nothing where the first day is not known. */
export function days(first: string | undefined, last: string | undefined): string {
  const from = parsed(first);
  const to = parsed(last) ?? from;
  return from && to ? m.times.days(from, to) : '';
}

/** Day, month from 0 and year of a date. */
function parsed(text: string | undefined): [number, number, number] | undefined {
  const at = new Date(text ?? '');
  return Number.isNaN(at.getTime()) ? undefined : [at.getUTCDate(), at.getUTCMonth(), at.getUTCFullYear()];
}
