/** Times and days as they are read out. */

const language = 'en-GB';
const time = new Intl.DateTimeFormat(language, { hour: '2-digit', minute: '2-digit' });
const date = { day: 'numeric', month: 'long', year: 'numeric' } as const;
const localDay = new Intl.DateTimeFormat(language, date);
const dayOf = new Intl.DateTimeFormat(language, { ...date, timeZone: 'UTC' });

/** `14:20` */
export function clock(at: Date): string {
  return time.format(at);
}

/** `12 June 2026` */
export function day(at: Date): string {
  return localDay.format(at);
}

/** `12–14 June 2026` for `2026-06-12` to `2026-06-14`; nothing where the first day is not known. */
export function days(first: string | undefined, last: string | undefined): string {
  const from = parsed(first);
  const to = parsed(last) ?? from;
  return from && to ? dayOf.formatRange(from, to) : '';
}

function parsed(text: string | undefined): Date | undefined {
  const at = new Date(text ?? '');
  return Number.isNaN(at.getTime()) ? undefined : at;
}
