/** The pages that load when they are first shown. */

import type { Component } from 'svelte';
import type { Route } from './lib/router';

/** A page to be loaded, and what it is given. */
export interface LaterPage {
  load: () => Promise<{ default: Component<Record<string, unknown>> }>;
  props: Record<string, unknown>;
}

/** Holds what a page is given to what it takes. */
function page<P extends Record<string, unknown>>(load: () => Promise<{ default: Component<P> }>, props: P) {
  return { load, props } as unknown as LaterPage;
}

const alone = (load: () => Promise<{ default: Component<Record<string, never>> }>) => () => page(load, {});
const ofOne = (load: () => Promise<{ default: Component<{ id: string }> }>) => (id: string) =>
  page(load, { id });
const sequence = (kind: 'programme' | 'flight') => (id: string) =>
  page(() => import('./figure/Sequence.svelte'), { target: { kind, id } });
const latest = (of: 'programme' | 'category') => (id: string) =>
  page(() => import('./published/Latest.svelte'), { id, of });
const sheets = (id: string) =>
  page(() => import('./published/Sheets.svelte'), {
    id,
    pilot: new URLSearchParams(location.search).get('pilot') ?? '',
  });
const oneJudge = (id: string) =>
  page(() => import('./panel/Own.svelte'), {
    id,
    judge: new URLSearchParams(location.search).get('judge') ?? '',
  });
const publishing = (of: 'programme' | 'category') => (id: string) =>
  page(() => import('./publish/Publish.svelte'), { id, of });

const pilot = (id: string, pilot: string) =>
  page(() => import('./pilot/Pilot.svelte'), { contest: id, pilot });
const working = (of: 'flight' | 'publication') => (id: string) =>
  page(() => import('./method/Working.svelte'), {
    of,
    id,
    pilot: new URLSearchParams(location.search).get('pilot') ?? '',
  });

type Pages = Partial<Record<Route['name'], (id: string) => LaterPage>>;

const pages: Pages = {
  contest: ofOne(() => import('./results/Contest.svelte')),
  category: ofOne(() => import('./results/Category.svelte')),
  flight: ofOne(() => import('./results/Sheet.svelte')),
  'flight-cards': ofOne(() => import('./cards/FlightCards.svelte')),
  'programme-cards': ofOne(() => import('./cards/ProgrammeCards.svelte')),
  scan: alone(() => import('./scan/Scan.svelte')),
  sequence: () => page(() => import('./figure/Sequence.svelte'), { target: { kind: 'scratch' } }),
  'programme-sequence': sequence('programme'),
  'flight-sequence': sequence('flight'),
  'category-limits': ofOne(() => import('./figure/Limits.svelte')),
  'contest-numbers': ofOne(() => import('./figure/Numbers.svelte')),
  'flight-paper': ofOne(() => import('./keying/Keying.svelte')),
  'programme-order': ofOne(() => import('./order/Order.svelte')),
  'programme-paper': ofOne(() => import('./keying/Flights.svelte')),
  pair: alone(() => import('./line/pair/Pair.svelte')),
  trust: alone(() => import('./trust/Trust.svelte')),
  office: alone(() => import('./figure/Office.svelte')),
  first: alone(() => import('./account/First.svelte')),
  'sign-in': alone(() => import('./account/SignIn.svelte')),
  invitation: alone(() => import('./account/Invitation.svelte')),
  password: alone(() => import('./account/NewPassword.svelte')),
  account: alone(() => import('./account/Account.svelte')),
  'contest-devices': ofOne(() => import('./devices/Devices.svelte')),
  'contest-people': ofOne(() => import('./account/People.svelte')),
  publication: ofOne(() => import('./published/Publication.svelte')),
  'publication-sheets': sheets,
  'contest-publications': ofOne(() => import('./published/Publications.svelte')),
  'programme-published': latest('programme'),
  'category-published': latest('category'),
  'contest-announcer': ofOne(() => import('./announcer/Announcer.svelte')),
  'contest-office': ofOne(() => import('./publish/Needs.svelte')),
  'programme-publish': publishing('programme'),
  'category-publish': publishing('category'),
  'contest-pilot': ofOne(() => import('./pilot/Own.svelte')),
  'flight-working': working('flight'),
  'publication-working': working('publication'),
  methods: alone(() => import('./method/Methods.svelte')),
  'contest-wall': ofOne(() => import('./wall/Wall.svelte')),
  'programme-protests': ofOne(() => import('./publish/Protests.svelte')),
  'contest-analyses': ofOne(() => import('./panel/Analyses.svelte')),
  'programme-analysis': ofOne(() => import('./panel/Panel.svelte')),
  'programme-judge': oneJudge,
  seasons: alone(() => import('./season/Seasons.svelte')),
  season: ofOne(() => import('./season/Season.svelte')),
  'season-setup': ofOne(() => import('./season/Setup.svelte')),
  'season-people': ofOne(() => import('./season/People.svelte')),
};

/** The page that a route shows later; nothing where it is there from the start, or where there is none. */
export const laterPage = (route: Route): LaterPage | undefined =>
  route.name === 'pilot' ? pilot(route.id, route.pilot) : pages[route.name]?.('id' in route ? route.id : '');
