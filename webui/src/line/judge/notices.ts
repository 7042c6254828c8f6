import { m } from '../../lib/messages/line';
import type { Desk } from '../desk';
import type { LineRecord } from '../records/record';
import type { Cell } from '../records/state';
import type { JudgeSeat } from './judge.svelte';

/** What the judge must know about this sheet and this item, in words; nothing most of the time. */
export function noticesOf(seat: JudgeSeat, desk: Desk, number: number): string[] {
  const { notice } = m.line;
  const { sheet, state } = desk;
  const cell = sheet.cells[number - 1];
  const reason = (id: string | undefined) => seat.device.records.find((one) => one.id === id)?.reason ?? '';
  const texts = [
    state.status === 'interrupted' && notice.interrupted,
    sheet.absent && notice.absent,
    sheet.signature.state === 'signed' && notice.signed,
    sheet.signature.state === 'differ' && notice.differ,
    sheet.signature.state === 'reopened' && notice.reopened(reason(sheet.reopens.at(-1))),
    cell?.conflict && notice.conflict(inWords(differing(seat.device.records, cell))),
    seat.items.length === 0 && notice.sequenceMissing,
  ];
  return texts.filter((text): text is string => typeof text === 'string');
}

/** The grades between which a cell is in conflict; none where it is not. */
export function differing(records: readonly LineRecord[], cell: Cell | undefined): string[] {
  if (!cell?.conflict) return [];
  const grades = records.filter(({ id }) => cell.heads.includes(id)).map(({ grade = '' }) => grade);
  return [...new Set(grades)];
}

const inWords = (grades: string[]): string =>
  grades.map((grade) => m.line.grade(grade) || m.line.tookBack).join(', ');
