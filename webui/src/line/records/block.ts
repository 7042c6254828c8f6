/** What keeps a flight from becoming official. */

import type { Entry } from './pool';
import { compareText } from './record';
import { isUnflown } from './scale';
import { waits } from './settle';
import type { Attempt, Block, Flight, Sheet } from './state';

/** Only the attempt that counts is asked; a flight that ends without a score needs no sheets. */
export function blocksOf(flight: Flight, entries: readonly Entry[]): Block[] {
  const unflown = isUnflown(flight.status);
  const attempt = flight.attempts.find((one) => one.attempt === flight.counting);
  return [
    ...statusBlocks(flight),
    ...(attempt && !unflown ? attemptBlocks(attempt) : []),
    ...recordBlocks(entries, unflown ? [0] : [0, flight.counting]),
  ];
}

const block = (cause: Block['cause'], more: Partial<Block>): Block => ({
  cause,
  judge: '',
  item: 0,
  record: '',
  state: '',
  ...more,
});

function statusBlocks({ status, status_conflict }: Flight): Block[] {
  if (status_conflict) return [block('status', { state: 'conflict' })];
  return status === 'closed' || isUnflown(status) ? [] : [block('status', { state: status })];
}

function attemptBlocks({ rulings, penalties, sheets }: Attempt): Block[] {
  const contradicted = <T extends { conflict: boolean }>(list: T[]) => list.filter((one) => one.conflict);
  return [
    ...contradicted(rulings).map(({ item, ruling }) => block('ruling', { item, state: ruling })),
    ...contradicted(penalties).map(({ kind }) => block('penalty', { state: kind })),
    ...sheets.filter((sheet) => !sheet.off_panel).flatMap(sheetBlocks),
  ];
}

function sheetBlocks({ judge, absent, absent_conflict, signature, cells }: Sheet): Block[] {
  const blocks = absent_conflict ? [block('absent', { judge })] : [];
  if (absent) return blocks;
  if (signature.state !== 'signed') blocks.push(block('sheet', { judge, state: signature.state }));
  const contradicted = cells.filter((cell) => cell.conflict);
  return [...blocks, ...contradicted.map(({ item }) => block('conflict', { judge, item }))];
}

function recordBlocks(entries: readonly Entry[], attempts: readonly number[]): Block[] {
  const undecided = (e: Entry) => waits(e) || e.standing?.standing === 'waits';
  return entries
    .filter((e) => attempts.includes(e.cell.attempt) && undecided(e))
    .map(({ cell: { judge, item }, record, standing }) =>
      block('record', { judge, item, record: record.id, state: standing?.standing ?? '' }),
    )
    .sort((a, b) => compareText(a.record, b.record));
}
