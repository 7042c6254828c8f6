/** Reads what the cards are made of. */

import { client, Failure, got } from '../lib/client';
import { each } from '../lib/each';
import { cardSequence, eachItsOwn, type Answer } from './sequence';
import type { Flight, Material, Sequence } from './types';

/** How many sequences are asked for at the same time. */
const atOnce = 6;

/** Everything that can be printed of a programme. */
export async function readProgramme(programme: string, signal: AbortSignal): Promise<Material> {
  const params = { path: { programme } };
  const [set, results] = await Promise.all([
    got(client.GET('/api/v1/programmes/{programme}', { params, signal })),
    got(client.GET('/api/v1/programmes/{programme}/results', { params, signal })),
  ]);
  const flights: Flight[] = results.flights;
  const alone = eachItsOwn(set.programme.kind);
  const answer = alone
    ? undefined
    : await there(got(client.GET('/api/v1/programmes/{programme}/sequence', { params, signal })));
  const shared = answer && cardSequence(answer);
  return {
    contest: set.contest,
    category: set.category,
    programme: set.programme,
    whole: true,
    panel: set.panel,
    flights: alone ? await eachWithOwn(flights, signal) : flights,
    ...(shared ? { shared } : {}),
    readAt: new Date(),
  };
}

/** Everything that can be printed of a flight. */
export async function readFlight(flight: string, signal: AbortSignal): Promise<Material> {
  const answer = await flightSequence(flight, signal);
  const { contest, category, programme } = answer;
  const params = { path: { programme: programme.id } };
  const set = await got(client.GET('/api/v1/programmes/{programme}', { params, signal }));
  const own: Flight = {
    id: flight,
    number: answer.flight?.number ?? 0,
    pilot: { name: '', affiliation: '', aircraft: '' },
    state: 'scheduled',
    ...having(cardSequence(answer)),
  };
  return { contest, category, programme, whole: false, panel: set.panel, flights: [own], readAt: new Date() };
}

/** The flights with their own sequences where there are any. */
function eachWithOwn(flights: Flight[], signal: AbortSignal): Promise<Flight[]> {
  return each(flights, atOnce, async (flight) => {
    const answer = await there(flightSequence(flight.id, signal));
    return { ...flight, ...having(answer && cardSequence(answer)) };
  });
}

const having = (sequence: Sequence | undefined) => (sequence ? { sequence } : {});

function flightSequence(flight: string, signal: AbortSignal): Promise<Answer> {
  return got(client.GET('/api/v1/flights/{flight}/sequence', { params: { path: { flight } }, signal }));
}

/** What was asked for; nothing where there is none, or it is not open to the reader. */
async function there<T>(asked: Promise<T>): Promise<T | undefined> {
  try {
    return await asked;
  } catch (thrown) {
    if (thrown instanceof Failure && thrown.kind === 'missing') return undefined;
    throw thrown;
  }
}
