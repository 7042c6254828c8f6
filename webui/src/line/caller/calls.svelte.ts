/** What is called out: the figure now and the next, of the flight that is on. */

import { deskOf, isOver, nextEmpty } from '../desk';
import { onTheLine, presentFlight } from '../chief/present';
import type { LineDevice } from '../device.svelte';
import { seatOf, type Item, type LineFlight } from '../plan';
import type { LiveFlight } from '../view';
import { fromSide } from '../wind';

/** Where a tap went, and in which flight. */
interface Tapped {
  flight: string;
  at: number;
  /** Where the judge's sheet was then. */
  from: number | undefined;
}

/**
 * A tap forward counts until the judge's sheet gets there, one back until the
 * sheet moves at all.
 */
export function counts({ at, from }: Pick<Tapped, 'at' | 'from'>, judges: number | undefined): boolean {
  if (judges === undefined || from === undefined) return true;
  return at > from ? judges < at : judges === from;
}

/**
 * Whose calls are read: the flight chosen here until it is over, else the one that
 * is called on, unless it was left here.
 */
export function readOut(
  flights: readonly LiveFlight[],
  chosen?: string,
  left?: string,
): LiveFlight | undefined {
  const own = flights.find(({ flight }) => flight.id === chosen);
  if (own && !isOver(own.state?.status ?? '')) return own;
  const on = onTheLine(flights).filter(({ flight }) => flight.id !== left);
  return on.length > 0 ? presentFlight(on) : undefined;
}

export class Calls {
  /** The flight that was chosen here by its number. */
  chosen = $state<string>();
  #left = $state<string>();
  #tap = $state.raw<Tapped>();

  readonly #live = $derived.by(() => readOut(this.device.flights, this.chosen, this.#left));
  readonly flight: LineFlight | undefined = $derived(this.#live?.flight);
  readonly items: Item[] = $derived.by(() =>
    this.flight ? this.device.itemsOf(this.flight).filter(({ kind }) => kind === 'figure') : [],
  );
  readonly seat = $derived.by(() => this.flight && seatOf(this.flight.programme, this.device.pairing.judge));
  /** Where the judge's sheet is; past the last figure where all have a grade. */
  readonly judges: number | undefined = $derived.by(() => {
    const { judge } = this.device.pairing;
    const desk = this.#live && judge ? deskOf(this.#live.flight, this.#live.state, judge) : undefined;
    return desk && Math.min(nextEmpty(desk.sheet, 0) ?? Infinity, this.items.length + 1);
  });
  /** Where a tap went, while it counts. */
  readonly tapped: number | undefined = $derived.by(() => {
    const tap = this.#tap;
    return tap && tap.flight === this.flight?.id && counts(tap, this.judges) ? tap.at : undefined;
  });
  readonly at: number = $derived(this.tapped ?? this.judges ?? 1);
  readonly now: Item | undefined = $derived(this.items[this.at - 1]);
  readonly drawing: string = $derived(this.now?.drawings?.[fromSide(this.#live?.state?.wind ?? '')] ?? '');
  readonly next: Item | undefined = $derived(this.items[this.at]);

  constructor(readonly device: LineDevice) {}

  choose(flight: string): void {
    this.chosen = flight;
  }

  /** The calls are read; another flight is chosen, or called on. */
  leave(): void {
    this.#left = this.flight?.id;
    this.chosen = undefined;
  }

  /** Moves on, or back. */
  step(by: number): void {
    const at = Math.min(Math.max(this.at + by, 1), this.items.length + 1);
    if (this.flight) this.#tap = { flight: this.flight.id, at, from: this.judges };
  }

  /** Goes where the judge is. */
  follow(): void {
    this.#tap = undefined;
  }
}
