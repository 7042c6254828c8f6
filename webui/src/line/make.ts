/** Records as they are made on this device, before they are numbered and signed. */

import { sheetDigest } from './records/digest';
import { seen, toSign } from './records/seen';
import type { LineRecord, Penalty, Wind } from './records/record';
import type { Attempt, Flight, Sheet } from './records/state';
import type { Draft } from './store/store';

/** A UUIDv7 (RFC 9562): milliseconds since 1970, the rest by chance. */
export function newId(now = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const view = new DataView(bytes.buffer);
  view.setUint16(0, Math.floor(now / 2 ** 32));
  view.setUint32(2, now % 2 ** 32);
  view.setUint8(6, (view.getUint8(6) & 0x0f) | 0x70);
  view.setUint8(8, (view.getUint8(8) & 0x3f) | 0x80);
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}

/** `2026-06-12T10:14:03.120+02:00`: the device's own clock, and how it is set. */
export function localTime(at = new Date()): string {
  const east = -at.getTimezoneOffset();
  const local = new Date(at.getTime() + east * 60_000).toISOString().slice(0, -1);
  const two = (n: number) => String(Math.floor(Math.abs(n))).padStart(2, '0');
  return `${local}${east < 0 ? '-' : '+'}${two(east / 60)}:${two(east % 60)}`;
}

/** Where a record belongs. */
export interface At {
  flight: string;
  attempt: number;
}

const begin = <K extends LineRecord['kind']>(kind: K, { flight, attempt }: At) => ({
  id: newId(),
  kind,
  flight,
  attempt,
  entered_at: localTime(),
});

/** A judge's grade for an item, in place of what the sheet has there; "" takes it back. */
export function gradeDraft(
  at: At,
  sequence: string,
  sheet: Sheet,
  item: number,
  given: { grade: string; remark: string },
): Draft {
  const replaces = sheet.cells[item - 1]?.heads ?? [];
  const remark = given.remark.normalize('NFC').trim();
  const text = remark === '' ? {} : { remark };
  return { ...begin('grade', at), judge: sheet.judge, item, grade: given.grade, ...text, sequence, replaces };
}

/** The signature of a sheet as it stands. */
export function signDraft(at: At, contest: string, sequence: string, sheet: Sheet): Draft {
  const { covers, entries } = toSign(sheet);
  const digest = sheetDigest(contest, at.flight, sheet.judge, sequence, entries);
  return { ...begin('sign', at), judge: sheet.judge, covers, after: sheet.reopens, digest };
}

/** A grade that counts nothing where it is counts from now on, as it was made, on a sheet. */
export function adoptDraft(at: At, sequence: string, into: Sheet, graded: LineRecord, reason: string): Draft {
  const { id, item = 0, grade = '', remark = '' } = graded;
  return { ...gradeDraft(at, sequence, into, item, { grade, remark }), adopts: [id], reason };
}

/** A whole sheet goes over to another flight's, with its signature where it has one; both are kept. */
export function moveDrafts(
  at: At,
  contest: string,
  sequence: string,
  sheets: { from: Sheet; into: Sheet },
  reason: string,
): Draft[] {
  const { from, into } = sheets;
  const graded = from.cells.filter(({ grade }) => grade !== '');
  const grades = graded.map(({ item, grade, remark, heads }) => ({
    ...gradeDraft(at, sequence, into, item, { grade, remark }),
    adopts: heads,
    reason,
  }));
  if (from.signature.state !== 'signed') return grades;
  const entries = from.cells.map(({ grade, remark }) => ({ grade, remark }));
  const digest = sheetDigest(contest, at.flight, into.judge, sequence, entries);
  const covers = grades.map(({ id }) => id);
  const { judge, reopens } = into;
  const adopts = from.signature.signs;
  return [...grades, { ...begin('sign', at), judge, covers, after: reopens, digest, adopts, reason }];
}

/** What a flight does from now on. A closing names all that it has seen. */
export function statusDraft(
  flight: Flight,
  attempt: number,
  said: { status: string; wind?: Wind | undefined; reason?: string },
  records: readonly LineRecord[] = [],
): Draft {
  const { status, wind, reason = '' } = said;
  const covers = status === 'closed' ? { covers: seen(records, flight.flight, attempt) } : {};
  const draft = begin('status', { flight: flight.flight, attempt });
  const more = { ...(wind ? { wind } : {}), ...(reason ? { reason } : {}) };
  return { ...draft, status, ...more, replaces: flight.status_heads, ...covers };
}

/** A ruling on an item, in place of those that answer the same question. */
export function rulingDraft(
  at: At,
  item: number,
  said: { ruling: string; grade?: string; reason?: string },
  replaces: readonly string[],
): Draft {
  const { ruling, grade, reason = '' } = said;
  const more = { ...(grade ? { grade } : {}), ...(reason ? { reason } : {}) };
  return { ...begin('ruling', at), item, ruling, ...more, replaces: [...replaces] };
}

/** A penalty, in place of what was given of its kind; count 0 takes it back. */
export function penaltyDraft(at: At, penalty: Penalty, attempt: Attempt | undefined): Draft {
  const before = attempt?.penalties.find(({ kind }) => kind === penalty.kind);
  return { ...begin('penalty', at), penalty, replaces: before?.heads ?? [] };
}

/** A signed sheet is opened again. */
export const reopenDraft = (at: At, judge: string, reason: string): Draft => ({
  ...begin('reopen', at),
  judge,
  reason,
});

/** A seat is absent for the flight, or back. */
export const absentDraft = (at: At, sheet: Sheet, absent: boolean): Draft => ({
  ...begin('absent', at),
  judge: sheet.judge,
  absent,
  replaces: sheet.absent_heads,
});

/** Records count nothing and block nothing from now on. */
export const asideDraft = (at: At, covers: readonly string[], reason: string): Draft => ({
  ...begin('aside', at),
  covers: [...covers],
  reason,
});
