/** A sequence as the service answers it, and as the cards show it. */

import type { components } from '../lib/api';
import type { CardItem, Sequence } from './types';

export type Answer = components['schemas']['RegisteredSequence'];

/** Each flight flies a sequence of its own. */
export function eachItsOwn(kind: Answer['programme']['kind']): boolean {
  return kind === 'free' || kind === 'freestyle';
}

/** The sequence of an answer; none where none is registered. */
export function cardSequence(answer: Answer): Sequence | undefined {
  if (answer.items.length === 0) return undefined;
  const { checked, digest, programme } = answer;
  const byNumber = new Map(checked.items.map((one) => [one.item, one]));
  return {
    items: answer.items.map((item, i) => cardItem(item, i + 1, byNumber.get(i + 1))),
    totalK: checked.total_k,
    figures: checked.figures,
    digest,
    accepted: Boolean(answer.signed_off ?? (eachItsOwn(programme.kind) ? undefined : answer.released_at)),
    clean: checked.clean,
    withheld: programme.kind === 'unknown' && !answer.released_at,
  };
}

function cardItem(
  item: Answer['items'][number],
  number: number,
  checked: Answer['checked']['items'][number] | undefined,
): CardItem {
  return {
    number,
    overall: item.kind === 'overall',
    k: checked?.k ?? item.k ?? 0,
    name: item.name || checked?.name || '',
    elements: item.elements ?? [],
    call: checked?.call ?? '',
    across: checked?.across ?? false,
    drawings: checked?.drawings ?? { right: '', left: '' },
  };
}
