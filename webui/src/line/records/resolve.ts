/** The state of every flight of the set-up: one pure function of the set of records. */

import { flightOf, type Planned } from './flight';
import { setAside, takeOver } from './officials';
import { gather } from './pool';
import type { Stored } from './record';
import { maxItem } from './scale';
import { unplaced } from './settle';
import type { FlightSetup, Setup, State } from './state';
import { close, decideStatus } from './status';

/** Changes nothing of what it is given; order and repetition of records make no difference. */
export function resolve(setup: Setup, records: readonly Stored[]): State {
  const plans = setup.flights.map(bounded);
  const pool = gather({ ...setup, flights: plans }, records);
  const planned = plans.map((plan) => {
    const group = { plan, entries: pool.byFlight.get(plan.flight)?.entries ?? [] };
    return { group, decided: decided(group) };
  });
  function decided(group: Planned) {
    const found = decideStatus(pool, group.entries);
    close(pool, group.entries, found);
    return found;
  }
  setAside(pool);
  takeOver(pool);
  const flights = planned.map((one) => flightOf(pool, one.group, one.decided));
  const waiting = unplaced(pool);
  const standings = pool.entries.map((e) => [e.record.id, e.standing ?? { standing: 'late', cause: '' }]);
  return { flights, unplaced: waiting, standings: Object.fromEntries(standings) as State['standings'] };
}

/** With a number of items that a sequence can have. */
const bounded = (plan: FlightSetup): FlightSetup => ({
  ...plan,
  items: Math.min(Math.max(plan.items, 0), maxItem),
});
