/** What the chief judge sees of each seat: how far it is, and whether its tablet is heard of. */

import type { PlannedDevice, PlannedProgramme } from '../plan';
import type { Sheet } from '../records/state';

export interface SeatState {
  judge: string;
  number: number;
  name: string;
  sheet: Sheet;
  /** Items with a grade. */
  entered: number;
  /** The first item without one after the last that has one. */
  at: number;
  tablet: Tablet;
}

export interface Tablet {
  /** Nothing paired, heard of lately, or not. */
  state: 'none' | 'here' | 'silent';
  /** Records that wait there, as it last said. */
  unsent: number;
  /** Tablets paired for the seat. */
  count: number;
}

/** A tablet that works asks every ten seconds; after three times that it is silent. */
const silentMs = 30_000;

/** The seats of a panel, with their sheets of an attempt. */
export function seatsOf(
  programme: PlannedProgramme,
  sheets: readonly Sheet[],
  devices: readonly PlannedDevice[],
): SeatState[] {
  const latest = Math.max(0, ...devices.map(heardAt));
  return programme.panel.flatMap(({ number, judge }) => {
    const sheet = sheets.find((one) => one.judge === judge.id);
    if (!sheet) return [];
    const tablet = tabletOf(
      devices.filter((one) => one.role === 'judge' && one.judge?.id === judge.id),
      latest,
    );
    return [{ judge: judge.id, number, name: judge.name, sheet, ...progress(sheet), tablet }];
  });
}

function progress({ cells }: Sheet): Pick<SeatState, 'entered' | 'at'> {
  const last = cells.findLastIndex(({ grade }) => grade !== '');
  return { entered: cells.filter(({ grade }) => grade !== '').length, at: Math.min(last + 2, cells.length) };
}

/** How a seat's tablets are, held against the service's clock: against whoever was heard of last. */
function tabletOf(own: readonly PlannedDevice[], latest: number): Tablet {
  const here = own.some((one) => heardAt(one) > 0 && latest - heardAt(one) < silentMs);
  const unsent = own.reduce((sum, one) => sum + (one.unsent ?? 0), 0);
  return { state: own.length === 0 ? 'none' : here ? 'here' : 'silent', unsent, count: own.length };
}

const heardAt = ({ last_contact }: PlannedDevice): number => (last_contact ? Date.parse(last_contact) : 0);
