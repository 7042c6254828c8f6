/** A judge's seat at work: which flight, which figure, and what a tap does. */

import { comingDesks, deskOf, itemOf, nextEmpty, presentDesk, type Desk } from '../desk';
import type { LineDevice } from '../device.svelte';
import { gradeDraft, signDraft } from '../make';
import type { Item } from '../plan';
import { toSign } from '../records/seen';
import type { Draft } from '../store/store';
import { isPositioning, offered, tally } from './remarks';

/** What was recorded last, so that it can be said back and taken back. */
export interface Last {
  flight: string;
  item: number;
  grade: string;
  /** What stood there before. */
  before: string;
}

export class JudgeSeat {
  /** The item chosen by a tap on the strip; else the first that is empty. */
  picked = $state<number>();
  last = $state.raw<Last>();
  /** The whole sheet is shown though items are empty, or though one was picked. */
  whole = $state(false);
  /** Remarks for items that have no grade yet, by flight and item. */
  pending = $state.raw<Record<string, string>>({});
  /** The number of the flight that was signed last. */
  signed = $state<number>();
  /** The flight that was chosen here by its number. */
  chosen = $state<string>();

  readonly judge: string;

  readonly desks: Desk[] = $derived.by(() =>
    this.device.flights.flatMap(({ flight, state }) => deskOf(flight, state, this.judge) ?? []),
  );
  readonly desk: Desk | undefined = $derived(presentDesk(this.desks, this.chosen));
  readonly coming = $derived(comingDesks(this.desks, this.desk));
  readonly items: Item[] = $derived.by(() => (this.desk ? this.device.itemsOf(this.desk.flight) : []));
  readonly ready = $derived(this.desk ? toSign(this.desk.sheet).ready : false);
  /** The item to grade; nothing where the whole sheet is shown. */
  readonly number = $derived.by(() => {
    if (!this.desk || this.whole) return undefined;
    return this.picked ?? nextEmpty(this.desk.sheet, 0);
  });
  readonly item = $derived(this.number === undefined ? undefined : itemOf(this.items, this.number));
  readonly letters = $derived(tally(this.desk?.sheet.cells.map(({ remark }) => remark) ?? []));

  constructor(readonly device: LineDevice) {
    this.judge = device.pairing.judge ?? '';
  }

  async start(): Promise<void> {
    this.chosen = await this.device.noted<string>('chosen');
    this.pending = (await this.device.noted<Record<string, string>>('pending')) ?? {};
  }

  /** The mark that the letters come to, where this item is for the position. */
  offer(item: Item | undefined): string | undefined {
    return item?.kind === 'overall' && isPositioning(item.name) ? offered(this.letters) : undefined;
  }

  remarkOf(number: number): string {
    const cell = this.desk?.sheet.cells[number - 1];
    return cell?.history.length ? cell.remark : (this.pending[this.#key(number)] ?? '');
  }

  /**
   * A tap on a key: recorded, said back, and on to the next item. Which item it
   * is for is found when the tap before it is done.
   */
  async grade(grade: string): Promise<void> {
    let last: Last | undefined;
    const make = () => {
      const { desk, number } = this;
      if (!desk || number === undefined) return [];
      const before = desk.sheet.cells[number - 1]?.grade ?? '';
      last = { flight: desk.flight.id, item: number, grade, before };
      return this.#drafts(desk.flight.id, number, { grade, remark: this.remarkOf(number) });
    };
    await this.device.act(make, () => {
      this.last = last;
      if (last) this.#forget(last.item);
      this.picked = undefined;
      this.whole ||= this.ready;
    });
  }

  /** What was recorded last is undone by a record of what stood there before. */
  async takeBack(): Promise<void> {
    const { last } = this;
    if (!last || last.flight !== this.desk?.flight.id) return;
    const given = { grade: last.before, remark: this.remarkOf(last.item) };
    await this.device.act(
      () => this.#drafts(last.flight, last.item, given),
      () => {
        this.last = undefined;
        this.pick(last.item);
      },
    );
  }

  pick(number: number): void {
    this.picked = number;
    this.whole = false;
  }

  /** Changes the remark of an item: recorded with its grade, or kept until there is one. */
  async remark(number: number, remark: string): Promise<void> {
    const { desk } = this;
    const grade = desk?.sheet.cells[number - 1]?.grade;
    if (desk && grade) await this.device.act(() => this.#drafts(desk.flight.id, number, { grade, remark }));
    else await this.#pend({ ...this.pending, [this.#key(number)]: remark });
  }

  /** Signs the sheet that is shown. */
  async sign(): Promise<void> {
    const [flight, number] = [this.desk?.flight.id, this.desk?.flight.number];
    const contest = this.device.pairing.contest;
    const make = () => {
      const desk = this.#deskOf(flight);
      const digest = desk?.flight.sequence?.digest;
      if (!desk || !digest || !toSign(desk.sheet).ready) return [];
      return [signDraft({ flight: desk.flight.id, attempt: desk.attempt }, contest, digest, desk.sheet)];
    };
    await this.device.act(make, () => {
      this.signed = number;
      this.whole = false;
      this.picked = undefined;
      this.last = undefined;
    });
  }

  /** Goes to a flight by its number, as it was called on the radio. */
  async choose(flight: string | undefined): Promise<void> {
    this.chosen = flight;
    this.picked = undefined;
    this.whole = false;
    await this.device.note('chosen', flight);
  }

  /** A grade for an item of a sheet, nothing where the sheet takes none. */
  #drafts(flight: string, number: number, given: { grade: string; remark: string }): Draft[] {
    const desk = this.#deskOf(flight);
    const digest = desk?.flight.sequence?.digest;
    if (!desk || !digest || desk.sheet.signature.state === 'signed') return [];
    return [gradeDraft({ flight, attempt: desk.attempt }, digest, desk.sheet, number, given)];
  }

  #deskOf(flight: string | undefined): Desk | undefined {
    return this.desks.find((desk) => desk.flight.id === flight);
  }

  #key(number: number): string {
    return `${this.desk?.flight.id} ${this.desk?.attempt} ${number}`;
  }

  #forget(number: number): void {
    const key = this.#key(number);
    if (!(key in this.pending)) return;
    const { [key]: _, ...rest } = this.pending;
    void this.#pend(rest);
  }

  async #pend(pending: Record<string, string>): Promise<void> {
    this.pending = pending;
    await this.device.note('pending', pending);
  }
}
