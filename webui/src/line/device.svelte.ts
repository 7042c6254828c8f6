/** A paired device as its pages show it: all of it is there without a network. */

import { followHeads } from '../lib/heads';
import { Pace } from '../lib/pace';
import { flightsOf, sequenceKey, type Item, type LineFlight, type Plan } from './plan';
import type { Author, Stored } from './records/record';
import type { LineService } from './service';
import type { Kept, Pairing } from './store/schema';
import type { Draft, LineStore } from './store/store';
import { take } from './sync/answer';
import { Delivery, type Delivering } from './sync/delivery';
import { Former } from './sync/former';
import { alone, Tabs } from './sync/tabs';
import { known, liveFlights, sequencesOf, type LiveFlight } from './view';

/** However often a contest changes, it is asked for again no more often than this; the chief judge waits less. */
const askEveryMs = 3_000;
const chiefAsksEveryMs = 1_000;
/** It is asked for again after this long in any case, which also says that this device is there. */
const askAnywayMs = 10_000;

export class LineDevice {
  plan = $state.raw<Plan>();
  made = $state.raw<Kept[]>([]);
  heard = $state.raw<Stored[]>([]);
  /** The items of each sequence, by what it is kept under. */
  items = $state.raw<Record<string, Item[]>>({});
  delivering = $state<Delivering>('resting');
  /** Whether the service answered last; nothing before the first answer. */
  reached = $state<boolean>();
  /** The service does not know this device any more, or says that it was withdrawn. */
  turnedAway = $state(false);
  /** How many records that were made under earlier pairings of this browser are not at the office. */
  former = $state(0);
  /** Another tab of this browser is at work. */
  elsewhere = $state(false);
  /** What went wrong when something could not be kept. */
  unkept = $state('');

  /** Everything recorded that this device knows of, each once. */
  readonly records: Stored[] = $derived.by(() => known(this.made, this.heard, this.author));
  readonly flights: LiveFlight[] = $derived.by(() =>
    this.plan ? liveFlights(this.plan, this.made, this.records) : [],
  );
  readonly waiting = $derived(this.made.filter(({ state }) => state === 'waiting').length);
  readonly refused = $derived(this.made.filter(({ state }) => state === 'refused'));

  #turn: Promise<void> = Promise.resolve();
  #delivery: Delivery;
  #former: Former;
  /** The epoch in which earlier pairings were seen to last. */
  #settled: string | undefined;
  #tabs: Tabs;
  #pace: Pace;
  #stop = new AbortController();

  constructor(
    readonly store: LineStore,
    readonly pairing: Pairing,
    private readonly service: LineService,
  ) {
    this.#delivery = new Delivery(store, pairing.device, this.#send, this.#told);
    this.#former = new Former(
      store,
      pairing,
      service,
      () => void this.#recount().then(() => this.#delivery.wake()),
    );
    this.#tabs = new Tabs(() => void this.#reload());
    const every = pairing.role === 'chief' ? chiefAsksEveryMs : askEveryMs;
    this.#pace = new Pace(every, () => void this.ask());
  }

  get author(): Author {
    const { role, judge, device } = this.pairing;
    return { role, ...(judge ? { seat: judge } : {}), device };
  }

  /** Reads what is kept here, and works until it is stopped. */
  async start(): Promise<void> {
    await this.#reload();
    this.#settle('');
    void alone(`halfpoint-line/${this.pairing.device}`, this.#stop.signal, this.#work, () => {
      this.elsewhere = true;
    });
  }

  stop(): void {
    this.#stop.abort();
    this.#pace.stop();
    this.#tabs.close();
  }

  /**
   * Records what `make` comes to when it is its turn: what was recorded before
   * is known by then. `kept` is called when it is here, before it is shown.
   */
  act(make: () => readonly Draft[], kept: () => void = () => {}): Promise<void> {
    this.#turn = this.#turn.then(() => this.#keep(make(), kept));
    return this.#turn;
  }

  async #keep(drafts: readonly Draft[], kept: () => void): Promise<void> {
    if (drafts.length === 0) return;
    try {
      await this.store.add(this.pairing.device, drafts);
    } catch (thrown) {
      this.unkept = String(thrown);
      return;
    }
    this.unkept = '';
    await this.#recount(kept);
    this.#delivery.wake();
  }

  /** Asks the service what there is to know. */
  ask = async (): Promise<void> => {
    const { contest, device, store: row } = this.pairing;
    try {
      const plan = await this.service.plan(row, this.waiting, this.#stop.signal);
      await this.store.hear(contest, plan.records);
      await this.store.note(device, 'plan', { ...plan, records: [] });
      await take(this.store, device, { epoch: plan.head.epoch, have: plan.have, records: [] });
      this.#settle(plan.head.epoch);
      this.#reach(true);
      await this.#reload();
      this.#tabs.tell();
      this.#delivery.wake();
      await this.#fetchItems(plan);
    } catch (thrown) {
      this.#reach(false, thrown);
    }
  };

  /** Keeps something under a name, for this device alone. */
  note = (name: string, value: unknown): Promise<void> => this.store.note(this.pairing.device, name, value);

  noted = <T>(name: string): Promise<T | undefined> => this.store.noted<T>(this.pairing.device, name);

  #work = async (signal: AbortSignal): Promise<void> => {
    this.elsewhere = false;
    const events = `/api/v1/contests/${encodeURIComponent(this.pairing.contest)}/events`;
    const unfollow = followHeads(events, { head: () => this.#pace.ask(), line: () => {} });
    const timer = setInterval(() => this.#pace.ask(), askAnywayMs);
    const back = () => {
      this.#pace.ask();
      this.#delivery.wake();
    };
    addEventListener('online', back, { signal });
    document.addEventListener('visibilitychange', back, { signal });
    this.#pace.ask();
    await this.#delivery.work(signal);
    unfollow();
    clearInterval(timer);
  };

  /** Sees to what earlier pairings left: at the start, and whenever the server was restored. */
  #settle(epoch: string): void {
    if (epoch === this.#settled) return;
    this.#settled = epoch;
    void this.#former.settle(this.#stop.signal, epoch);
  }

  #send = async (records: Kept['record'][], signal: AbortSignal) => {
    const { device, store } = this.pairing;
    const unsent = Math.max(0, this.waiting - records.length);
    const answer = await this.service.deliver({ device, store, records, unsent }, signal);
    return answer;
  };

  #told = (state: Delivering, thrown?: unknown): void => {
    this.delivering = state;
    if (state === 'failing') this.#reach(false, thrown);
    void this.#recount();
  };

  #reach(reached: boolean, thrown?: unknown): void {
    this.reached = reached;
    const status = (thrown as { status?: number } | undefined)?.status;
    this.turnedAway = status === 401 || status === 403 || status === 404;
  }

  /** What was recorded here changed, or what became of it. */
  async #recount(kept: () => void = () => {}): Promise<void> {
    const [made, former] = await Promise.all([this.store.made(this.pairing.device), this.#former.waiting()]);
    Object.assign(this, { made, former });
    kept();
    this.#tabs.tell();
  }

  #reload = async (): Promise<void> => {
    const { contest, device } = this.pairing;
    const [plan, made, heard, former] = await Promise.all([
      this.noted<Plan>('plan'),
      this.store.made(device),
      this.store.heard(contest),
      this.#former.waiting(),
    ]);
    Object.assign(this, { plan, made, heard, former });
    await this.#readItems();
  };

  /** What is graded in a flight; empty where it is not on this device yet. */
  itemsOf({ sequence }: LineFlight): Item[] {
    return (sequence && this.items[sequenceKey(sequence)]) ?? [];
  }

  /** Sequences are many and large: each is read once. */
  async #readItems(): Promise<void> {
    const unread = this.plan ? sequencesOf(this.plan).filter((key) => !(key in this.items)) : [];
    const found = await Promise.all(unread.map((key) => this.noted<Item[]>(key)));
    const read = unread.flatMap((key, i) => (found[i] ? [[key, found[i]] as const] : []));
    if (read.length > 0) this.items = { ...this.items, ...Object.fromEntries(read) };
  }

  async #fetchItems(plan: Plan): Promise<void> {
    for (const { id, sequence } of flightsOf(plan)) {
      if (!sequence || sequenceKey(sequence) in this.items) continue;
      const items = await this.service.items(id, this.#stop.signal);
      await this.note(sequenceKey(sequence), items);
      this.items = { ...this.items, [sequenceKey(sequence)]: items };
    }
  }
}
