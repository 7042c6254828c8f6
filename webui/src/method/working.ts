/** A score's arithmetic in words and lines, as it is done with what is shown. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { m } from '../lib/messages/method';
import { fixed } from '../lib/numbers';

export type Working = components['schemas']['Working'];
export type Item = Working['items'][number];
type Seat = Working['seats'][number];

export function readWorking(
  of: 'flight' | 'publication',
  id: string,
  pilot: string,
  signal: AbortSignal,
): Promise<Working> {
  return got(
    of === 'flight'
      ? client.GET('/api/v1/flights/{flight}/working', { params: { path: { flight: id } }, signal })
      : client.GET('/api/v1/publications/{publication}/workings/{pilot}', {
          params: { path: { publication: id, pilot } },
          signal,
        }),
  );
}

/** How the values came about, by the first row that is not a plain zero. */
export function kindOf({ items, method }: Working): 'mean' | 'trimmed' | 'weighted' | 'totals' {
  if (items.some(({ how }) => how === 'apart')) return 'totals';
  if (items.some(({ how }) => how === 'weighted' || how === 'fit' || how === 'zeros')) return 'weighted';
  return (method.fallback || method.name) === 'trimmed-mean' ? 'trimmed' : 'mean';
}

/** The sentences about the method. */
export function wordsOf(working: Working): string[] {
  const kind = kindOf(working);
  const { trim, discard, outlier, lean } = working.options;
  const { option } = m.working;
  const set = {
    mean: [],
    trimmed: [option.trim(trim)],
    weighted: [option.outlier(String(outlier)), option.lean(String(lean))],
    totals: [option.discard(String(discard))],
  }[kind];
  return [
    ...m.working[kind].words,
    ...(kind === 'weighted' ? [m.working.weighted.rounds] : []),
    ...(set.length > 0 ? [m.working.options(set.join('; '))] : []),
  ];
}

/** An item's value worked out in one line; nothing where there is none by hand. */
export function lineOf(item: Item, { seats, decimals, factors }: Working): string {
  const value = fixed(item.value, decimals);
  const those = item.grades.map((grade, i) => ({ ...grade, seat: seats[i] })).filter(({ counts }) => counts);
  if (item.how === 'mean') {
    return m.working.mean.line(those.map(({ used }) => fixed(used, 1)).join(' + '), those.length, value);
  }
  if (item.how !== 'weighted') return '';
  const weights = those.map(({ seat, trust }) => `${fixed(seat?.share, factors)} × ${fixed(trust, factors)}`);
  return m.working.weighted.line(
    those.map(({ used }, i) => `${weights[i]} × ${fixed(used, factors)}`).join(' + '),
    weights.join(' + '),
    value,
  );
}

/** How a seat's total was moved, in one line. */
export function movedOf(seat: Seat, { level, decimals, factors }: Working): string {
  const { line, plain } = m.working.totals;
  const of = (value: number | undefined) => fixed(value, factors);
  const moved = fixed(seat.moved, decimals);
  if (seat.deviation === 0) return plain(of(level?.mean), of(seat.total), of(seat.mean), moved);
  return line(of(level?.mean), of(seat.total), of(seat.mean), of(level?.spread), of(seat.deviation), moved);
}

/** The mean of the moved totals that count, in one line. */
export function meanOf({ seats, sum, decimals }: Working): string {
  const those = seats.filter(({ graded, discarded }) => graded && !discarded);
  return m.working.totals.score(
    those.map(({ moved }) => fixed(moved, decimals)).join(' + '),
    those.length,
    fixed(sum, Math.max(decimals, 4)),
  );
}

/** The item that there is most to tell of: with the least trusted or a left out grade, else the first. */
export function mostTold({ items }: Working): number {
  const told = items.findIndex(({ grades }) =>
    grades.some(({ counts, trust = 1 }) => !counts || trust < 0.5),
  );
  return Math.max(0, told);
}

/** What an item is called. */
export function nameOf({ number, name }: Item): string {
  return name.charAt(0).toUpperCase() + name.slice(1) || m.sheet.numbered(number);
}
