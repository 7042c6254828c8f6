/** What a signature stands for. */

import { sha256 } from './sha256';

/** What a sheet says of one item: a grade and a remark in NFC, which may be empty. */
export interface Entry {
  grade: string;
  remark: string;
}

const escapes: Record<string, string> = { '\\': '\\\\', '\t': '\\t', '\r': '\\r', '\n': '\\n' };
/** With what would end a field or a line written out. */
export const escaped = (text: string) => text.replace(/[\\\t\r\n]/g, (character) => escapes[character] ?? '');

/** The signed text: lines ended by LF, one for each item after the five of the head. */
export function sheetText(
  contest: string,
  flight: string,
  judge: string,
  sequence: string,
  entries: Entry[],
): string {
  const head = ['halfpoint-sheet/1', contest, flight, judge, sequence];
  const items = entries.map(({ grade, remark }, i) => `${i + 1}\t${grade}\t${escaped(remark)}`);
  return [...head, ...items].map((line) => `${line}\n`).join('');
}

/** The lower-case hexadecimal SHA-256 of the signed text. */
export const sheetDigest = (...of: Parameters<typeof sheetText>): string => sha256(sheetText(...of));
