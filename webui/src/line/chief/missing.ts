/** What is still missing of a flight before it can be closed, each in words. */

import { m } from '../../lib/messages/chief';
import type { PlannedProgramme } from '../plan';
import { seatOf } from '../plan';
import type { Block, Flight } from '../records/state';
import type { Row } from './table';

interface Missing {
  text: string;
  /** A record that counts nothing, which can be set aside. */
  record?: string;
}

export function missing({ blocks }: Flight, programme: PlannedProgramme): Missing[] {
  const [unsigned, others] = [blocks.filter(isUnsigned), blocks.filter((block) => !isUnsigned(block))];
  const numbers = unsigned.flatMap(({ judge }) => seatOf(programme, judge) ?? []);
  const first = numbers.length > 0 ? [{ text: m.chief.block.unsigned(numbers) }] : [];
  return [...first, ...others.flatMap((block) => one(block, programme))];
}

const isUnsigned = ({ cause, state }: Block) => cause === 'sheet' && state === 'unsigned';

function one(block: Block, programme: PlannedProgramme): Missing[] {
  if (block.cause === 'status' && block.state !== 'conflict') return [];
  const text = said(block, programme);
  return [block.cause === 'record' ? { text, record: block.record } : { text }];
}

function said({ cause, judge, item, state }: Block, programme: PlannedProgramme): string {
  const words = m.chief.block;
  const number = seatOf(programme, judge);
  const seat = number === undefined ? m.chief.statusHeading : m.chief.seat.name(number);
  switch (cause) {
    case 'sheet':
      return words.sheet(seat, state);
    case 'conflict':
      return words.conflict(seat, item);
    case 'absent':
      return words.absent(seat);
    case 'ruling':
      return words.ruling(item);
    case 'penalty':
      return words.penalty(state);
    case 'record':
      return words.record(seat, item, m.chief.recordState[state] ?? state);
    case 'status':
      return words.status();
  }
}

/** Needs a word of the chief judge's before the flight can be scored well. */
export const isUnresolved = ({ questions }: Row): boolean =>
  questions.some((question) => question !== 'zero');
