/** Times and days as they are read out. */

const language = 'en-GB';
const time = new Intl.DateTimeFormat(language, { hour: '2-digit', minute: '2-digit' });
const day = new Intl.DateTimeFormat(language, {
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});

/** `14:20` */
export function clock(at: Date): string {
  return time.format(at);
}

/** `12–14 June 2026` for `2026-06-12` to `2026-06-14`; nothing where the first day is not known. */
export function days(first: string | undefined, last: string | undefined): string {
  const from = date(first);
  const to = date(last) ?? from;
  return from && to ? day.formatRange(from, to) : '';
}

function date(text: string | undefined): Date | undefined {
  const at = new Date(text ?? '');
  return Number.isNaN(at.getTime()) ? undefined : at;
}
