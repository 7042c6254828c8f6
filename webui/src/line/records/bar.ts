/** What keeps a record from counting, whatever others say. */

import { isOfficial, type Stored } from './record';
import type { FlightSetup, Standing } from './state';

/** Nothing for a record that is free to count. */
export type Bar = Standing | undefined;

const held = (cause: string): Bar => ({ standing: 'held', cause });

/** Everything but the closing of the flight. */
export function barOf(record: Stored, plan: FlightSetup | undefined): Bar {
  const { author } = record;
  if (author.withdrawn) return held('withdrawn');
  if (!may(record)) return held('role');
  if (author.role === 'judge' && (author.seat ?? '') !== (record.judge ?? '')) return held('seat');
  if (record.kind === 'aside') return undefined;
  if (!plan) return held('flight');
  if (ofOtherSequence(record, plan.sequence)) return { standing: 'other-sequence', cause: '' };
  return isItem(record, plan.items) ? undefined : held('item');
}

/** A judge grades and signs, officials do everything. */
function may({ kind, author }: Stored): boolean {
  return isOfficial(author) || (author.role === 'judge' && (kind === 'grade' || kind === 'sign'));
}

/** A signature or a ruling may leave open which sequence it is about: what it speaks of says it. */
function ofOtherSequence({ kind, sequence = '' }: Stored, digest: string): boolean {
  if (kind === 'grade') return sequence !== digest;
  return (kind === 'sign' || kind === 'ruling') && sequence !== '' && sequence !== digest;
}

function isItem({ kind, item = 0 }: Stored, items: number): boolean {
  return (kind !== 'grade' && kind !== 'ruling') || (item >= 1 && item <= items);
}
