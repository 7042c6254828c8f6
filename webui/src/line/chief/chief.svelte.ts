/** The chief judge at work: which flight, what the seats have given, and what a tap decides. */

import { countingOf } from '../desk';
import type { LineDevice } from '../device.svelte';
import * as make from '../make';
import { flightsOf, type Item } from '../plan';
import { attemptOf, type Wind } from '../records/record';
import { rulingFamily } from '../records/scale';
import { toSign } from '../records/seen';
import type { Attempt, Sheet } from '../records/state';
import type { Draft } from '../store/store';
import { liveFlight, type LiveFlight } from '../view';
import { onTheLine, presentFlight, toCall } from './present';
import { seatsOf } from './seats';
import { rowsOf } from './table';

/** What lies beside the table. */
export type Beside =
  | { kind: 'flight' }
  | { kind: 'seat'; judge: string }
  | { kind: 'figure'; item: number }
  | { kind: 'figures' }
  | { kind: 'penalties' }
  | { kind: 'flights' };

/** What a status says beside itself. */
interface Said {
  attempt?: number;
  wind?: Wind;
  reason?: string;
}

export class ChiefDesk {
  /** The flight that was chosen here; else the one that is flown. */
  chosen = $state<string>();
  beside = $state.raw<Beside>({ kind: 'flight' });
  /** The side the wind blows to that the next call says. */
  wind = $state<Wind>('left');
  /** Of a freestyle; as the contest's rules have it. */
  limitMs = $state(4 * 60_000); // common practice, no source

  readonly present: LiveFlight | undefined = $derived.by(
    () => this.#view(this.chosen) ?? presentFlight(this.device.flights),
  );
  readonly attempt: Attempt | undefined = $derived.by(() =>
    this.present?.state ? countingOf(this.present.state) : undefined,
  );
  readonly items: Item[] = $derived.by(() => (this.present ? this.device.itemsOf(this.present.flight) : []));
  readonly landed = $derived(['landed', 'closed'].includes(this.present?.state?.status ?? ''));
  readonly rows = $derived(this.attempt ? rowsOf(this.attempt, this.landed) : []);
  readonly seats = $derived.by(() =>
    this.present && this.attempt
      ? seatsOf(this.present.flight.programme, this.attempt.sheets, this.device.plan?.devices ?? [])
      : [],
  );
  /** How many attempts there are, those of which nothing but the call is known included. */
  readonly attempts = $derived.by(() => {
    const own = this.device.records.filter(({ flight }) => flight === this.present?.flight.id);
    return Math.max(1, ...own.map(attemptOf));
  });
  readonly active = $derived.by(() => onTheLine(this.device.flights));
  readonly coming = $derived.by(() => toCall(this.device.flights));

  constructor(readonly device: LineDevice) {}

  async start(): Promise<void> {
    this.wind = (await this.device.noted<Wind>('wind')) ?? 'left';
    this.limitMs = (await this.device.noted<number>('limit')) ?? this.limitMs;
  }

  /** Moves the time limit by half minutes. */
  async moveLimit(by: number): Promise<void> {
    this.limitMs = Math.max(30_000, this.limitMs + by * 30_000);
    await this.device.note('limit', this.limitMs);
  }

  /** A flight by its id, over or not; nothing for one that this device does not know. */
  #view(id: string | undefined): LiveFlight | undefined {
    const { flights, plan, records } = this.device;
    const live = flights.find(({ flight }) => flight.id === id);
    const over = live || !plan ? undefined : flightsOf(plan).find((flight) => flight.id === id);
    return live ?? (plan && over ? liveFlight(plan, over, records) : undefined);
  }

  choose(flight: string | undefined): void {
    this.chosen = flight;
    this.beside = { kind: 'flight' };
  }

  show = (beside: Beside): void => {
    this.beside = beside;
  };

  /** Calls a flight on, with the wind. */
  async call(flight: string, attempt = 1): Promise<void> {
    const { wind } = this;
    await this.#act(flight, ({ state }) =>
      state ? [make.statusDraft(state, attempt, { status: 'called', wind })] : [],
    );
    this.choose(undefined);
  }

  /** Says what the present flight does from now on. */
  async say(status: string, said: Said = {}): Promise<void> {
    const { wind, reason } = said;
    await this.#present(({ state }, attempt) => {
      if (!state) return [];
      const at = said.attempt ?? attempt?.attempt ?? 1;
      const more = { ...(wind ? { wind } : {}), ...(reason ? { reason } : {}) };
      return [make.statusDraft(state, at, { status, ...more }, this.device.records)];
    });
    this.beside = { kind: 'flight' };
  }

  /** Closes the flight, and goes on by itself. */
  async close(): Promise<void> {
    await this.say('closed');
    this.chosen = undefined;
  }

  /** The wind turns: for the flight that is shown, and for those that are called from now on. */
  async turnWind(wind: Wind): Promise<void> {
    this.wind = wind;
    await this.device.note('wind', wind);
    const status = this.present?.state?.status;
    if (status) await this.say(status, { wind });
  }

  async rule(item: number, said: { ruling: string; grade?: string; reason?: string }): Promise<void> {
    const family = rulingFamily(said.ruling);
    await this.#attempt((at, attempt) => {
      const before = attempt.rulings.filter(
        (one) => one.item === item && rulingFamily(one.ruling) === family,
      );
      return [
        make.rulingDraft(
          at,
          item,
          said,
          before.flatMap(({ heads }) => heads),
        ),
      ];
    });
  }

  async penalise(kind: string, count: number, points: number): Promise<void> {
    await this.#attempt((at, attempt) => [make.penaltyDraft(at, { kind, count, points }, attempt)]);
  }

  async setAbsent(judge: string, absent: boolean): Promise<void> {
    await this.#sheet(judge, (at, sheet) => [make.absentDraft(at, sheet, absent)]);
  }

  async reopen(judge: string, reason: string): Promise<void> {
    await this.#sheet(judge, (at) => [make.reopenDraft(at, judge, reason)]);
  }

  /** Signs for a judge who cannot. */
  async signFor(judge: string, reason: string): Promise<void> {
    const contest = this.device.pairing.contest;
    await this.#sheet(judge, (at, sheet, digest) =>
      toSign(sheet).ready ? [{ ...make.signDraft(at, contest, digest, sheet), reason }] : [],
    );
  }

  /** Chooses among grades of one cell that contradict. */
  async settle(judge: string, item: number, given: { grade: string; remark: string }, reason: string) {
    await this.#sheet(judge, (at, sheet, digest) => [
      { ...make.gradeDraft(at, digest, sheet, item, given), reason },
    ]);
  }

  /** What is held counts nothing and blocks nothing from now on. */
  async setAside(records: readonly string[], reason: string): Promise<void> {
    await this.#attempt((at) => [make.asideDraft(at, records, reason)]);
  }

  /** Grades that are held count from now on, as they were made. */
  async adopt(records: readonly string[], reason: string): Promise<void> {
    const held = this.device.records.filter(({ id, kind }) => kind === 'grade' && records.includes(id));
    await this.#attempt((at, attempt, digest) =>
      held.flatMap((graded) => {
        const sheet = attempt.sheets.find((one) => one.judge === graded.judge);
        return sheet ? [make.adoptDraft(at, digest, sheet, graded, reason)] : [];
      }),
    );
  }

  /** A judge's whole sheet was entered for the wrong flight: it goes over to the right one. */
  async moveSheet(judge: string, flight: string, reason: string): Promise<void> {
    const from = this.attempt?.sheets.find((one) => one.judge === judge);
    await this.#act(flight, (live, attempt) => {
      const into = attempt?.sheets.find((one) => one.judge === judge);
      if (!from || !into || !attempt) return [];
      const at = { flight, attempt: attempt.attempt };
      const digest = live.flight.sequence?.digest ?? '';
      return make.moveDrafts(at, this.device.pairing.contest, digest, { from, into }, reason);
    });
  }

  #sheet(judge: string, drafts: (at: make.At, sheet: Sheet, digest: string) => Draft[]): Promise<void> {
    return this.#attempt((at, attempt, digest) => {
      const sheet = attempt.sheets.find((one) => one.judge === judge);
      return sheet ? drafts(at, sheet, digest) : [];
    });
  }

  #attempt(drafts: (at: make.At, attempt: Attempt, digest: string) => Draft[]): Promise<void> {
    return this.#present(({ flight }, attempt) => {
      if (!attempt) return [];
      const at = { flight: flight.id, attempt: attempt.attempt };
      return drafts(at, attempt, flight.sequence?.digest ?? '');
    });
  }

  #present(drafts: (live: LiveFlight, attempt: Attempt | undefined) => Draft[]): Promise<void> {
    const flight = this.present?.flight.id;
    return flight === undefined ? Promise.resolve() : this.#act(flight, drafts);
  }

  /** Records what is made of a flight as it is when its turn comes. */
  #act(flight: string, drafts: (live: LiveFlight, attempt: Attempt | undefined) => Draft[]): Promise<void> {
    return this.device.act(() => {
      const live = this.#view(flight);
      return live ? drafts(live, live.state && countingOf(live.state)) : [];
    });
  }
}
