/** Devices of the line without a browser: the tablet's own store and sync, over a network that is as bad as chance makes it. */

import 'fake-indexeddb/auto';
import { randomUUID } from 'node:crypto';
import { below, pick, type Chance } from '../src/lib/fixtures/chance';
import { Network } from '../src/lib/fixtures/network';
import * as make from '../src/line/make';
import { flightsOf, setupOf, type Plan } from '../src/line/plan';
import type { LineRecord, Stored } from '../src/line/records/record';
import { resolve } from '../src/line/records/resolve';
import { toSign } from '../src/line/records/seen';
import type { Flight, Setup, Sheet } from '../src/line/records/state';
import { newKey } from '../src/line/store/sign';
import { LineStore, type Draft } from '../src/line/store/store';
import type { Answer } from '../src/line/sync/answer';
import { Delivery } from '../src/line/sync/delivery';
import type { Office } from './line';

/** A device whose page may end at any moment. */
export class Device {
  id = '';
  /** Ids of the records that it showed as entered. */
  readonly entered = new Set<string>();
  store!: LineStore;
  #row = randomUUID();
  #cookie = '';
  #name = randomUUID();
  #delivery!: Delivery;

  constructor(
    private readonly office: Office,
    private readonly network: Network,
    readonly role: 'judge' | 'chief',
    readonly judge = '',
  ) {}

  async pair(): Promise<this> {
    const { link } = await this.office.offer(this.role, this.judge || undefined);
    const { key, publicKey } = await newKey();
    const response = await fetch(`${this.office.url}/api/v1/pairings/claim`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ link, public_key: publicKey }),
    });
    const { device, contest } = (await response.json()) as { device: string; contest: { id: string } };
    this.#cookie = response.headers.get('set-cookie')?.split(';')[0] ?? '';
    this.id = device;
    await this.open();
    await this.store.pair({
      ...{ device, contest: contest.id, role: this.role, paired_at: new Date().toISOString() },
      ...{ judge: this.judge, store: this.#row, key, seq: 0, epoch: '', have: 0 },
    });
    return this;
  }

  async open(): Promise<void> {
    this.store = await LineStore.open(this.#name);
    this.#delivery = new Delivery(this.store, this.id, (records) =>
      this.network.carry(() => this.#deliver(records)),
    );
  }

  /** Everything that was not written to the disk is gone. */
  async crash(): Promise<void> {
    this.store.close();
    await this.open();
  }

  step = () => this.#delivery.step(new AbortController().signal);

  async #deliver(records: LineRecord[]): Promise<Answer> {
    const response = await fetch(`${this.office.url}/api/v1/line/records`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ device: this.id, store: this.#row, records, unsent: 0 }),
      signal: AbortSignal.timeout(10_000),
    });
    if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
    return (await response.json()) as Answer;
  }

  async plan(): Promise<Plan> {
    const response = await fetch(`${this.office.url}/api/v1/line?store=${this.#row}&unsent=0`, {
      headers: { cookie: this.#cookie },
      signal: AbortSignal.timeout(10_000),
    });
    if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
    return (await response.json()) as Plan;
  }

  /** Hears what others recorded, where the network lets it. */
  async hear(): Promise<void> {
    const heard = await this.network.carry(() => this.plan()).catch(() => undefined);
    if (heard) await this.store.hear(this.office.contest, heard.records);
  }

  async made(): Promise<LineRecord[]> {
    return (await this.store.made(this.id)).map(({ record }) => record);
  }

  /** A flight as the device shows it, of what it made and heard. */
  async shown(setup: Setup, flight: string): Promise<Flight | undefined> {
    const author = { role: this.role, device: this.id, ...(this.judge ? { seat: this.judge } : {}) };
    const own: Stored[] = (await this.made()).map((record) => ({ ...record, author }));
    const there = new Set(own.map(({ id }) => id));
    const heard = (await this.store.heard(this.office.contest)).filter(({ id }) => !there.has(id));
    return resolve(setup, [...own, ...heard]).flights.find((one) => one.flight === flight);
  }

  async enter(draft: Draft | undefined): Promise<void> {
    if (!draft) return;
    await this.store.add(this.id, [draft]);
    this.entered.add(draft.id);
  }
}

const grades = ['6.0', '7.0', '7.5', 'HZ', 'A', ''];

/** A contest on the line, with everything that can happen to it. */
export class Storm {
  readonly devices: Device[] = [];
  readonly network: Network;
  setup!: Setup;
  flights: string[] = [];

  constructor(
    private readonly office: Office,
    private readonly chance: Chance,
  ) {
    this.network = new Network(chance);
  }

  /** Two tablets on one seat, one on another, and the chief judge's. */
  async begin(): Promise<void> {
    const [one, other] = await this.office.judges();
    for (const judge of [one, one, other]) {
      this.devices.push(await new Device(this.office, this.network, 'judge', judge?.id).pair());
    }
    const chief = await new Device(this.office, this.network, 'chief').pair();
    this.devices.push(chief);
    const plan = await chief.plan();
    const all = flightsOf(plan);
    this.setup = setupOf(this.office.contest, all);
    this.flights = all.slice(0, 3).map(({ id }) => id);
  }

  /** One thing of all that can happen to a device. */
  async happen(): Promise<void> {
    const device = pick(this.chance, this.devices);
    const n = below(this.chance, 100);
    if (n < 45) return this.#act(device);
    if (n < 53) return device.hear();
    if (n < 58) return device.crash();
    if (n < 68) return this.#interrupted(device);
    await device.step();
  }

  /** The page ends while it writes, or while an answer is noted. */
  async #interrupted(device: Device): Promise<void> {
    const doing = this.chance() < 0.5 ? this.#act(device) : device.step();
    for (let n = below(this.chance, 6); n > 0; n--) await Promise.resolve();
    device.store.close();
    await doing.catch(() => undefined);
    await device.open();
  }

  async #act(device: Device): Promise<void> {
    const flight = await device.shown(this.setup, pick(this.chance, this.flights));
    if (!flight) return;
    await device.enter(device.role === 'chief' ? this.#decide(flight) : this.#judge(device, flight));
  }

  #judge(device: Device, flight: Flight): Draft | undefined {
    const sheet = sheetOf(flight, device.judge);
    if (!sheet || flight.counting === 0) return undefined;
    const at = { flight: flight.flight, attempt: flight.counting };
    const ready = toSign(sheet).ready && sheet.signature.state !== 'signed';
    if (ready && this.chance() < 0.5)
      return make.signDraft(at, this.office.contest, this.#sequence(flight), sheet);
    const item = 1 + below(this.chance, sheet.cells.length);
    return make.gradeDraft(at, this.#sequence(flight), sheet, item, {
      grade: pick(this.chance, grades),
      remark: '',
    });
  }

  #decide(flight: Flight): Draft | undefined {
    const at = { flight: flight.flight, attempt: Math.max(1, flight.counting) };
    const sheets = flight.attempts.flatMap((attempt) => attempt.sheets);
    const signed = sheets.filter(({ signature }) => signature.state === 'signed');
    const n = below(this.chance, 4);
    if (n === 0 && signed.length > 0)
      return make.reopenDraft(at, pick(this.chance, signed).judge, 'wrong figure');
    if (n === 1)
      return make.rulingDraft(
        at,
        1,
        { ruling: pick(this.chance, ['hard-zero-confirmed', 'hard-zero-overruled']) },
        [],
      );
    if (n === 2)
      return make.statusDraft(flight, at.attempt, {
        status: pick(this.chance, ['called', 'flying', 'landed']),
      });
    return make.penaltyDraft(
      at,
      { kind: 'low', count: below(this.chance, 3), points: 50 },
      flight.attempts[0],
    );
  }

  #sequence = (flight: Flight): string =>
    this.setup.flights.find((one) => one.flight === flight.flight)?.sequence ?? '';

  /** The network is back: everything is sent. */
  async settle(): Promise<void> {
    await this.network.heal();
    for (const device of this.devices) {
      await device.crash();
      await this.#act(device); // what is new shows the epoch to a device that had nothing left to send
      while ((await device.step()) !== 'resting');
    }
  }
}

const sheetOf = (flight: Flight, judge: string): Sheet | undefined =>
  flight.attempts
    .find(({ attempt }) => attempt === flight.counting)
    ?.sheets.find((sheet) => sheet.judge === judge);
