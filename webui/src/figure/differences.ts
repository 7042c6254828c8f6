/** Where two sequences differ, item for item, in words. */

import { m } from '../lib/messages/figure';
import { same, type Item, type Sheet } from './sheet';
import { wholeMove } from './words';

interface Difference {
  what: string;
  here: string;
  there: string;
}

/** The differences of a sequence here from the one that is registered. */
export function differences(here: Sheet, there: Sheet): Difference[] {
  const found: Difference[] = [];
  if (here.inverted !== there.inverted) {
    const begins = (sheet: Sheet) => m.editor.flight(sheet.inverted, false);
    found.push({ what: m.editor.conflict.entry, here: begins(here), there: begins(there) });
  }
  for (let i = 0; i < Math.max(here.items.length, there.items.length); i++) {
    const [a, b] = [here.items[i], there.items[i]];
    if (a && b && same({ items: [a], inverted: false }, { items: [b], inverted: false })) continue;
    found.push({ what: m.editor.conflict.item(i + 1), here: describe(a), there: describe(b) });
  }
  return found;
}

function describe(item: Item | undefined): string {
  if (!item) return m.editor.conflict.nothing;
  const parts = [
    item.k && m.editor.k(item.k),
    item.name || item.words.name,
    item.numbers
      .map(({ number }) => number)
      .filter(Boolean)
      .join(' + '),
    item.moves.map((move) => wholeMove(move, undefined)).join(' – '),
    item.begins && `${m.editor.from.toLowerCase()} ${m.editor.set[item.begins]}`,
    item.words.call,
  ];
  return parts.filter(Boolean).join(', ');
}
