/** A record as one text, field by field as the service writes it. */

import type { Author, Stored } from './record';

/** In the service's order; the first four are always written. */
const fields = [
  'seq',
  'id',
  'kind',
  'flight',
  'attempt',
  'judge',
  'by',
  'item',
  'grade',
  'remark',
  'sequence',
  'replaces',
  'adopts',
  'covers',
  'after',
  'digest',
  'ruling',
  'penalty',
  'absent',
  'status',
  'wind',
  'reason',
  'entered_at',
  'signature',
] as const satisfies (keyof Stored)[];

/** The text by which two records of one id are told apart. */
export function written(record: Stored): string {
  const all: [string, unknown][] = fields.map((name) => [name, record[name]]);
  const said = all.filter(([name, value], i) => i < 4 || name === 'absent' || !isEmpty(value));
  const text = JSON.stringify(Object.fromEntries([...said, ['author', writtenAuthor(record.author)]]));
  return text.replace(/[<>&\u2028\u2029]/g, escaped);
}

const escaped = (character: string) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;

function writtenAuthor({ role, seat, device, withdrawn }: Author) {
  const rest = Object.entries({ seat, device, withdrawn }).filter(([, value]) => !isEmpty(value));
  return Object.fromEntries([['role', role], ...rest]);
}

const isEmpty = (value: unknown): boolean => !value || (Array.isArray(value) && value.length === 0);
