/** The text that a device signs with its key. */

import { escaped } from './digest';
import { attemptOf, type LineRecord } from './record';

const texts = ['judge', 'by', 'item', 'grade', 'remark', 'sequence'] as const;
const lists = ['replaces', 'adopts', 'covers', 'after'] as const;
const more = ['status', 'wind', 'reason', 'entered_at'] as const;

/**
 * Lines ended by LF: `halfpoint-record/1`, the contest, then name and value of
 * every field that is not empty, a tab between them, in the order of the record.
 * How the record is delivered (seq) and the signature itself are not in it.
 */
export function recordText(contest: string, record: LineRecord): string {
  const { id, kind, flight, digest, ruling, penalty, absent } = record;
  const lines: (readonly [name: string, ...values: unknown[]])[] = [
    ['id', id],
    ['kind', kind],
    ['flight', flight],
    ['attempt', attemptOf(record)],
    ...texts.map((name) => [name, record[name]] as const),
    ...lists.map((name) => [name, record[name]?.join(' ')] as const),
    ['digest', digest],
    ['ruling', ruling],
    penalty ? ['penalty', penalty.kind, penalty.count, penalty.points] : ['penalty'],
    ['absent', absent === undefined ? '' : String(absent)],
    ...more.map((name) => [name, record[name]] as const),
  ];
  const said = lines.filter(([, first]) => Boolean(first));
  const written = said.map((line) => line.map((value) => escaped(String(value))).join('\t'));
  return ['halfpoint-record/1', contest, ...written].map((line) => `${line}\n`).join('');
}
