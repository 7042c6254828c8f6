/** What earlier pairings of this browser made: it reaches the office though the tablet is paired anew. */

import { Failure } from '../../lib/client';
import type { LineService } from '../service';
import type { Pairing } from '../store/schema';
import type { LineStore } from '../store/store';
import { take } from './answer';
import { Delivery, type Send } from './delivery';
import { alone } from './tabs';

export class Former {
  constructor(
    private readonly store: LineStore,
    private readonly present: Pairing,
    private readonly service: LineService,
    /** Something was sent, or came over to the present pairing. */
    private readonly changed: () => void,
  ) {}

  /** How many records of earlier pairings are not at the office. */
  async waiting(): Promise<number> {
    const counts = await Promise.all((await this.#all()).map(({ device }) => this.store.counts(device)));
    return counts.reduce((sum, { waiting }) => sum + waiting, 0);
  }

  /**
   * Sends what is left, each under its own seat. Under another `epoch` than when
   * the server last answered all of it goes again: it may be lost there.
   */
  async settle(signal: AbortSignal, epoch = ''): Promise<void> {
    const each = (await this.#all()).map(({ device }) =>
      alone(
        `halfpoint-line/${device}`,
        signal,
        (here) => this.#settle(device, here, epoch),
        () => {},
      ),
    );
    await Promise.all(each);
  }

  async #all(): Promise<Pairing[]> {
    return (await this.store.pairings()).filter(({ device }) => device !== this.present.device);
  }

  async #settle(device: string, signal: AbortSignal, epoch: string): Promise<void> {
    const former = (await this.#all()).find((one) => one.device === device);
    if (!former) return;
    if (epoch !== '' && former.epoch !== epoch)
      await take(this.store, device, { epoch, have: 0, records: [] });
    if (await this.#send(former, signal)) return;
    if (isSameSeat(former, this.present)) await this.store.carry(device, this.present.device);
    this.changed();
  }

  /** Sends until all is there, which is true; false where the server does not know the device. */
  async #send({ device, store }: Pairing, signal: AbortSignal): Promise<boolean> {
    const stop = new AbortController();
    let known = true;
    const send: Send = async (records, until) => {
      const { waiting } = await this.store.counts(device);
      return this.service.deliver({ device, store, records, unsent: waiting - records.length }, until);
    };
    const delivery = new Delivery(this.store, device, send, (state, thrown) => {
      known &&= !isUnknown(thrown);
      if (state === 'resting' || !known) stop.abort();
      this.changed();
    });
    await delivery.work(AbortSignal.any([signal, stop.signal]));
    return known;
  }
}

const isSameSeat = (a: Pairing, b: Pairing): boolean =>
  a.contest === b.contest && a.role === b.role && a.judge === b.judge;

/** The service itself says that it never heard of the device: it was paired after the backup that was restored. */
function isUnknown(thrown: unknown): boolean {
  return thrown instanceof Failure && thrown.status === 404 && thrown.detail.includes('/docs#not-found');
}
