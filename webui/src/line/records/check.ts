/** What makes a record malformed; such a record is refused and never stored. */

import { isOfficial, type LineRecord, type Stored } from './record';
import { isDigest, isGrade, isNumber, isStatus, isUuid, maxItem, rulingFamily } from './scale';

const maxAttempt = 20;
/** Characters of a remark or a reason. */
export const maxText = 500;
/** Ids in one list. */
const maxIds = 2000;
const maxCount = 99;
/** Characters of a penalty's kind. */
const maxName = 60;

/** One thing wrong: the name of the field, and what would be right. */
export interface Fault {
  field: string;
  text: string;
}

type Need = (ok: boolean, field: string, text: string) => void;

/** Who may do what is not asked here: `resolve` holds a record whose author had no business. */
export function check(record: Stored): Fault[] {
  const faults: Fault[] = [];
  const need: Need = (ok, field, text) => {
    if (!ok) faults.push({ field, text });
  };
  common(need, record);
  const own = Object.hasOwn(kinds, record.kind) ? kinds[record.kind] : undefined;
  if (own) own(need, record);
  else need(false, 'kind', 'is grade, sign, reopen, absent, ruling, penalty, status or aside');
  return faults;
}

function common(need: Need, r: LineRecord): void {
  need(Number.isInteger(r.seq) && r.seq >= 1, 'seq', 'counts from 1');
  uuid(need, 'id', r.id);
  uuid(need, 'flight', r.flight);
  need(!r.by || isUuid(r.by), 'by', 'is a UUID in lower case');
  need(within(r.attempt ?? 0, 0, maxAttempt), 'attempt', `is 1 to ${maxAttempt}`);
  text(need, 'remark', r.remark);
  text(need, 'reason', r.reason);
  need(!r.sequence || isDigest(r.sequence), 'sequence', 'is a SHA-256 in lower-case hexadecimal');
  for (const field of ['replaces', 'adopts', 'covers', 'after'] as const) ids(need, field, r[field]);
  need(!r.entered_at || isTime(r.entered_at), 'entered_at', 'is a time as in 2026-06-12T10:14:03.120+02:00');
}

const kinds: Record<string, (need: Need, r: Stored) => void> = {
  grade(need, r) {
    uuid(need, 'judge', r.judge);
    item(need, r);
    const scale = 'is "0.0" to "10.0" in halves, "HZ", "PZ", "A", or "" to take it back';
    need(!r.grade || isGrade(r.grade), 'grade', scale);
    need(Boolean(r.sequence), 'sequence', 'is needed with a grade');
    const decides = r.author.role === 'chief' || some(r.adopts);
    if (decides || (isOfficial(r.author) && some(r.replaces))) reason(need, r);
  },
  sign(need, r) {
    uuid(need, 'judge', r.judge);
    need(some(r.covers), 'covers', 'names the grades that are signed');
    need(isDigest(r.digest ?? ''), 'digest', 'is a SHA-256 in lower-case hexadecimal');
    if (isOfficial(r.author)) reason(need, r);
  },
  reopen(need, r) {
    uuid(need, 'judge', r.judge);
    reason(need, r);
  },
  absent(need, r) {
    uuid(need, 'judge', r.judge);
    need(r.absent !== undefined, 'absent', 'is true for an absent seat and false for one that is back');
  },
  ruling(need, r) {
    item(need, r);
    need(rulingFamily(r.ruling ?? '') !== '', 'ruling', 'is not a ruling');
    if (r.ruling === 'grade-set') need(isNumber(r.grade ?? ''), 'grade', 'is "0.0" to "10.0" in halves');
    else need(!r.grade, 'grade', 'is only for a grade that is set');
  },
  penalty(need, { penalty }) {
    if (!penalty) return need(false, 'penalty', 'is needed');
    const name = `has 1 to ${maxName} characters`;
    need(penalty.kind !== '' && isText(penalty.kind, maxName), 'penalty/kind', name);
    need(within(penalty.count, 0, maxCount), 'penalty/count', `is 0 to ${maxCount}`);
    const points = Number.isFinite(penalty.points) && penalty.points >= 0;
    need(points, 'penalty/points', 'is a number not below 0');
  },
  status(need, r) {
    const known = 'is called, flying, landed, interrupted, closed, not-flown, withdrawn or disqualified';
    need(isStatus(r.status ?? ''), 'status', known);
    need(['', 'left', 'right'].includes(r.wind ?? ''), 'wind', 'is left or right');
  },
  aside(need, r) {
    need(some(r.covers), 'covers', 'names the records that are set aside');
    reason(need, r);
  },
};

const some = (list: readonly string[] = []) => list.length > 0;

const within = (n: number, from: number, to: number) => Number.isInteger(n) && n >= from && n <= to;

const uuid = (need: Need, field: string, id = '') => need(isUuid(id), field, 'is a UUID in lower case');

const item = (need: Need, r: LineRecord) =>
  need(within(r.item ?? 0, 1, maxItem), 'item', `is 1 to ${maxItem}`);

const reason = (need: Need, r: LineRecord) =>
  need((r.reason ?? '').trim() !== '', 'reason', 'is needed here');

const text = (need: Need, field: string, value = '') =>
  need(isText(value, maxText), field, `has at most ${maxText} characters`);

/** Whole characters only, and not too many of them. */
const isText = (value: string, most: number) => !/\p{Surrogate}/u.test(value) && [...value].length <= most;

function ids(need: Need, field: string, list: readonly string[] = []): void {
  need(list.length <= maxIds, field, `has at most ${maxIds} ids`);
  for (const [i, id] of list.entries()) uuid(need, `${field}/${i}`, id);
}

const rfc3339 = /^(\d{4}-\d\d-\d\d)T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(?:\.\d+)?(?:Z|[+-]\d\d:[0-5]\d)$/;

function isTime(value: string): boolean {
  const [, day = ''] = rfc3339.exec(value) ?? [];
  const date = new Date(`${day}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(day);
}
