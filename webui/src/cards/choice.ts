/** What of a programme, or of a flight, is to be printed; kept in the address. */

import { papers, type Paper } from './paper';
import type { Material } from './types';

export const kinds = ['sequence', 'caller', 'grades', 'order'] as const;
export type Kind = (typeof kinds)[number];

export const winds = ['right', 'left', 'both'] as const;
export const stacks = ['flight', 'seat'] as const;

export interface Choice {
  kind: Kind;
  wind: (typeof winds)[number];
  /** `one` card for all flights, every flight, those still `to-fly`, or a flight's number. */
  flights: string;
  /** `every` or a seat's number. */
  seat: string;
  /** What lies together: all seats of a flight, or all flights of a seat. */
  stack: (typeof stacks)[number];
  /** The running order with the pilots' names; without them for the judges. */
  names: 'shown' | 'left-out';
  paper: Paper;
}

const allowed = {
  kind: kinds,
  wind: winds,
  stack: stacks,
  names: ['shown', 'left-out'],
  paper: papers,
} as const;

/** Reads a choice from the query of an address; what is not there, or means nothing, is as in `usual`. */
export function readChoice(query: string, usual: Choice): Choice {
  const asked = new URLSearchParams(query);
  const known = (key: keyof typeof allowed) => {
    const value = asked.get(key);
    return allowed[key].some((one) => one === value) ? { [key]: value } : {};
  };
  return {
    ...usual,
    ...known('kind'),
    ...known('wind'),
    ...known('stack'),
    ...known('names'),
    ...known('paper'),
    flights: asked.get('flights') ?? usual.flights,
    seat: asked.get('seat') ?? usual.seat,
  };
}

/** The choice that stands for one that this material, or this card, does not offer. */
export function fitted(asked: Choice, { whole, shared, flights, panel }: Material): Choice {
  const kind = asked.kind === 'order' && !whole ? 'sequence' : asked.kind;
  const offered = (found: { number: number }[], value: string) =>
    found.some(({ number }) => String(number) === value);
  const one = asked.flights === 'one' && shared && kind !== 'grades';
  const known = one || asked.flights === 'to-fly' || offered(flights, asked.flights);
  return {
    ...asked,
    kind,
    wind: asked.wind === 'both' && kind !== 'sequence' ? 'right' : asked.wind,
    flights: whole && known ? asked.flights : 'every',
    seat: offered(panel, asked.seat) ? asked.seat : 'every',
  };
}

/** Writes the query that `readChoice` reads. */
export function writeChoice(choice: Choice): string {
  return `?${new URLSearchParams({ ...choice })}`;
}
