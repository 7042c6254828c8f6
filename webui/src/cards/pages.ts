/** From what was read and what was chosen to the pages that are printed. */

import type { Choice } from './choice';
import { figuresOn, gradesOn, ordersOn, share, shareCalls, type CallSize } from './paper';
import type { CardItem, Flight, Material, Seat, Sequence, Wind } from './types';

interface Part {
  /** Unlike every other page's. */
  key: string;
  /** From 1, of how many pages that belong together. */
  part: number;
  parts: number;
}

/** Whose page it is: a flight's, or that of all flights of the programme. */
export interface Owner {
  flight?: Flight;
  seat?: Seat;
  sequence: Sequence;
}

export type SequencePage = Part &
  Owner & { kind: 'sequence'; wind: Wind; items: CardItem[]; overall: CardItem[] };
export type CallerPage = Part & Owner & { kind: 'caller'; size: CallSize; items: CardItem[] };
export type GradesPage = Part & Owner & { kind: 'grades'; wind: Wind; seat: Seat; items: CardItem[] };
export type OrderPage = Part & { kind: 'order'; flights: Flight[]; from: number; names: boolean };
export type Page = SequencePage | CallerPage | GradesPage | OrderPage;

/** The pages of a choice that fits, in the order in which they leave the printer. */
export function pages(material: Material, choice: Choice): Page[] {
  switch (choice.kind) {
    case 'sequence':
      return owners(material, choice).flatMap((owner) => sequencePages(owner, choice));
    case 'caller':
      return owners(material, choice).flatMap((owner) => callerPages(owner, choice));
    case 'grades':
      return stacked(material, choice).flatMap((owner) => gradesPages(owner, choice));
    case 'order':
      return orderPages(material, choice);
  }
}

const out = new Set(['withdrawn', 'not-flown', 'disqualified']);
const toFly = new Set(['scheduled', 'flying']);

/** The flights chosen, in running order; who has withdrawn needs no paper unless asked for by number. */
export function chosenFlights({ flights }: Material, { flights: choice }: Choice): Flight[] {
  if (choice === 'to-fly') return flights.filter(({ state }) => toFly.has(state));
  if (choice === 'every') return flights.filter(({ state }) => !out.has(state));
  return flights.filter(({ number }) => String(number) === choice);
}

/** The flights chosen that no card can be printed for. */
export function withoutSequence(material: Material, choice: Choice): Flight[] {
  if (choice.kind === 'order' || material.shared) return [];
  return chosenFlights(material, choice).filter(({ sequence }) => !sequence);
}

function owners(material: Material, choice: Choice): Owner[] {
  if (choice.flights === 'one' && material.shared) return [{ sequence: material.shared }];
  return chosenFlights(material, choice).flatMap((flight) => {
    const sequence = flight.sequence ?? material.shared;
    return sequence ? [{ flight, sequence }] : [];
  });
}

type Seated = Owner & { seat: Seat };

function stacked(material: Material, choice: Choice): Seated[] {
  const found = owners(material, choice);
  const seats = material.panel.filter(({ number }) => ['every', String(number)].includes(choice.seat));
  return choice.stack === 'seat'
    ? seats.flatMap((seat) => found.map((owner) => ({ ...owner, seat })))
    : found.flatMap((owner) => seats.map((seat) => ({ ...owner, seat })));
}

const figures = ({ sequence }: Owner) => sequence.items.filter(({ overall }) => !overall);
const overalls = ({ sequence }: Owner) => sequence.items.filter(({ overall }) => overall);
const whose = ({ flight, seat }: Owner) => `${flight?.id ?? ''}/${seat?.number ?? ''}`;

function sequencePages(owner: Owner, { wind }: Choice): SequencePage[] {
  const sides: Wind[] = wind === 'both' ? ['right', 'left'] : [wind];
  const parts = share(figures(owner), figuresOn);
  return sides.flatMap((side) =>
    parts.map((items, i) => ({
      ...owner,
      ...place(`${whose(owner)}/${side}`, i, parts),
      kind: 'sequence',
      wind: side,
      items,
      overall: overalls(owner),
    })),
  );
}

function callerPages(owner: Owner, { paper }: Choice): CallerPage[] {
  const { size, parts } = shareCalls(figures(owner), called, paper);
  return parts.map((items, i) => ({
    ...owner,
    ...place(whose(owner), i, parts),
    kind: 'caller',
    size,
    items,
  }));
}

function gradesPages(owner: Seated, { wind, paper }: Choice): GradesPage[] {
  const parts = share(owner.sequence.items, gradesOn(paper));
  const side = wind === 'left' ? 'left' : 'right';
  return parts.map((items, i) => ({
    ...owner,
    ...place(whose(owner), i, parts),
    kind: 'grades',
    wind: side,
    items,
  }));
}

function orderPages({ flights }: Material, { paper, names }: Choice): OrderPage[] {
  if (flights.length === 0) return [];
  const parts = share(flights, ordersOn(paper));
  return parts.map((some, i) => ({
    ...place('order', i, parts),
    kind: 'order',
    flights: some,
    from: flights.indexOf(some[0] as Flight) + 1,
    names: names === 'shown',
  }));
}

function place(whole: string, i: number, parts: unknown[]): Part {
  return { key: `${whole}/${i}`, part: i + 1, parts: parts.length };
}

/** What the caller reads: the words, else the name or the catalogue numbers. */
export function called({ call, name, elements }: CardItem): string {
  return call || name || elements.join(' ');
}
