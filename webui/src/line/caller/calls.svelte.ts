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

/** A flight as it was called on: flown again it is another one. */
export const callOf = ({ flight, state }: LiveFlight): string => `${flight.id} ${state?.counting || 1}`;

/**
 * Whose calls are read: the flight chosen here until it is over, else the one that
 * is called on, unless that call was left here.
 */
export function readOut(
  flights: readonly LiveFlight[],
  chosen?: string,
  left?: string,
): LiveFlight | undefined {
  const own = flights.find(({ flight }) => flight.id === chosen);
  if (own && !isOver(own.state?.status ?? '')) return own;
  const on = onTheLine(flights).filter((one) => callOf(one) !== left);
  return on.length > 0 ? presentFlight(on) : undefined;
}

/** What a tablet keeps of it, for a page that is loaded again. */
interface Kept {
  chosen?: string | undefined;
  left?: string | undefined;
  tap?: Tapped | undefined;
}

export class Calls {
  /** The flight that was chosen here by its number. */
  chosen = $state<string>();
  /** The call that was left here. */
  left = $state<string>();
  #tap = $state.raw<Tapped>();

  readonly #live = $derived.by(() => readOut(this.device.flights, this.chosen, this.left));
  readonly flight: LineFlight | undefined = $derived(this.#live?.flight);
  readonly #all: Item[] = $derived.by(() => (this.flight ? this.device.itemsOf(this.flight) : []));
  readonly items: Item[] = $derived(this.#all.filter(({ kind }) => kind === 'figure'));
  /** What is marked over the whole flight. */
  readonly marks: Item[] = $derived(this.#all.filter(({ kind }) => kind === 'overall'));
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

  /** Goes on where this tablet was when its page was last open. */
  async start(): Promise<void> {
    const kept = await this.device.noted<Kept>('calls');
    if (!kept) return;
    this.chosen = kept.chosen;
    this.left = kept.left;
    this.#tap = kept.tap;
  }

  choose(flight: string): void {
    this.chosen = flight;
    this.#keep();
  }

  /** The calls are read; another flight is chosen, or called on. */
  leave(): void {
    this.left = this.#live && callOf(this.#live);
    this.chosen = undefined;
    this.#keep();
  }

  /** Moves on, or back. */
  step(by: number): void {
    const at = Math.min(Math.max(this.at + by, 1), this.items.length + 1);
    if (this.flight) this.#tap = { flight: this.flight.id, at, from: this.judges };
    this.#keep();
  }

  /** Goes where the judge is. */
  follow(): void {
    this.#tap = undefined;
    this.#keep();
  }

  #keep(): void {
    const kept: Kept = { chosen: this.chosen, left: this.left, tap: this.#tap };
    void this.device.note('calls', kept);
  }
}
