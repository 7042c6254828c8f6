/** An invented programme to print, for tests. */

import type { CardItem, Flight, Material, Sequence, State } from './types';

const square = (side: string) => `<svg viewBox="0 0 9 9"><title>${side}</title><path d="M1 1h7v7"/></svg>`;

/** Item `number` of a sequence; the words of every third fill two lines of a caller's card. */
export function cardItem(number: number, change: Partial<CardItem> = {}): CardItem {
  return {
    number,
    overall: false,
    k: 10 + number,
    name: `figure ${number}`,
    elements: [`7.${number}.1.1`],
    call: `Figure ${number}: ${number % 3 === 0 ? 'five eighths of a loop, on the forty-five down half roll, ' : ''}out upright.`,
    across: false,
    drawings: { right: square(`right ${number}`), left: square(`left ${number}`) },
    ...change,
  };
}

/** So many figures and one overall mark. */
export function cardSequence(figures: number, change: Partial<Sequence> = {}): Sequence {
  const items = Array.from({ length: figures }, (_, i) => cardItem(i + 1));
  const mark = cardItem(figures + 1, { overall: true, k: 8, name: 'Positioning', elements: [], call: '' });
  return {
    items: [...items, mark],
    totalK: items.reduce((sum, { k }) => sum + k, 0),
    figures,
    digest: '0123456789abcdef',
    accepted: true,
    clean: true,
    withheld: false,
    ...change,
  };
}

const states: State[] = ['flown', 'scheduled', 'withdrawn', 'flying'];

/** A programme of four flights, one in each of four states, before a panel of three. */
export function material(change: Partial<Material> = {}): Material {
  const flights = states.map((state, i): Flight => {
    const pilot = { name: `Pilot ${i + 1}`, affiliation: 'Fjord Aero', aircraft: 'Merlin 6' };
    return { id: `f${i + 1}`, number: i + 1, pilot, state };
  });
  const panel = [1, 2, 3].map((number) => ({ number, judge: { id: `j${number}`, name: `Judge ${number}` } }));
  return {
    contest: { id: 'c1', name: 'Lindholm Open' },
    category: { id: 'k1', name: 'Sportsman' },
    programme: { id: 'p1', name: 'Known' },
    whole: true,
    panel,
    flights,
    shared: cardSequence(10),
    readAt: new Date(2026, 5, 12, 9, 30),
    ...change,
  };
}
