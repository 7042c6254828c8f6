/** A sequence as the service answers it, and as the cards show it. */

import type { CardItem, Named, Sequence } from './types';

export interface Answer {
  contest: Named;
  category: Named;
  programme: Named & { kind: string };
  flight?: { number: number };
  items: { kind: 'figure' | 'overall'; k: number; name?: string; elements?: string[] }[];
  digest: string;
  checked: {
    items: Checked[];
    total_k: number;
    figures: number;
    clean: boolean;
  };
  signed_off?: unknown;
  released_at?: string;
}

interface Checked {
  item: number;
  k: number;
  name?: string;
  call?: string;
  across?: boolean;
  drawings?: { right: string; left: string };
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
    signedOff: Boolean(answer.signed_off),
    clean: checked.clean,
    withheld: programme.kind === 'unknown' && !answer.released_at,
  };
}

function cardItem(item: Answer['items'][number], number: number, checked: Checked | undefined): CardItem {
  return {
    number,
    overall: item.kind === 'overall',
    k: checked?.k ?? item.k,
    name: item.name || checked?.name || '',
    elements: item.elements ?? [],
    call: checked?.call ?? '',
    across: checked?.across ?? false,
    drawings: checked?.drawings ?? { right: '', left: '' },
  };
}
