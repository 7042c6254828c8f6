/** What the server says of a delivery, and what that changes here. */

import type { Fault } from '../records/check';
import type { Kept } from '../store/schema';
import type { LineStore } from '../store/store';

export interface Answer {
  /** New at each restore of the server. */
  epoch: string;
  /** The highest seq of the store up to which the server has every record. */
  have: number;
  records: { id: string; result: 'stored' | 'repeat' | 'refused'; faults?: Fault[] }[];
}

/**
 * Notes an answer, all of it or nothing. Where the server was restored, or has
 * less than it said before, everything after what it has goes again; what it
 * refused stays refused.
 */
export async function take(store: LineStore, device: string, answer: Answer): Promise<void> {
  const tx = store.transaction();
  const [pairings, records] = [tx.objectStore('pairings'), tx.objectStore('records')];
  const pairing = await pairings.get(device);
  if (!pairing) return;
  const { epoch, have } = answer;
  const again = pairing.epoch !== '' && (pairing.epoch !== epoch || have < pairing.have);
  const lost = again ? await records.index('state').getAll(storedAfter(device, have)) : [];
  const answered = await Promise.all(answer.records.map(({ id }) => records.index('id').get(id)));
  await Promise.all([
    ...lost.map((kept) => records.put({ ...kept, state: 'waiting' })),
    ...answer.records.map((one, i) => {
      const kept = answered[i];
      return kept?.device === device ? records.put({ ...kept, ...verdict(one) }) : undefined;
    }),
    pairings.put({ ...pairing, epoch, have }),
    tx.done,
  ]);
}

const storedAfter = (device: string, seq: number) =>
  IDBKeyRange.bound([device, 'stored', seq], [device, 'stored', []], true);

function verdict({ result, faults = [] }: Answer['records'][number]): Partial<Kept> {
  return result === 'refused' ? { state: 'refused', faults } : { state: 'stored', faults: [] };
}
