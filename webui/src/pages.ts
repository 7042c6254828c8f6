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

type Load<P extends Record<string, unknown>> = () => Promise<{ default: Component<P> }>;

/** Loads once: a page that has loaded is there in no time, not a moment later. One that failed is loaded again. */
function once<T>(load: () => Promise<T>): () => Promise<T> {
  let loading: Promise<T> | undefined;
  return () =>
    (loading ??= load().catch((thrown: unknown) => {
      loading = undefined;
      throw thrown;
    }));
}

/** A page of nothing but itself, and one of the thing with an id. */
const alone =
  (load: Load<Record<string, never>>, loaded = once(load)) =>
  () =>
    page(loaded, {});
const ofOne =
  (load: Load<{ id: string }>, loaded = once(load)) =>
  (id: string) =>
    page(loaded, { id });

/** What the address asks for besides. */
const asked = (name: string) => new URLSearchParams(location.search).get(name) ?? '';

const Sequence = once(() => import('./figure/Sequence.svelte'));
const Latest = once(() => import('./published/Latest.svelte'));
const Sheets = once(() => import('./published/Sheets.svelte'));
const Own = once(() => import('./panel/Own.svelte'));
const Publish = once(() => import('./publish/Publish.svelte'));
const Pilot = once(() => import('./pilot/Pilot.svelte'));
const Working = once(() => import('./method/Working.svelte'));
const Setup = once(() => import('./setup/Setup.svelte'));

const sequence = (kind: 'programme' | 'flight') => (id: string) => page(Sequence, { target: { kind, id } });
const latest = (of: 'programme' | 'category') => (id: string) => page(Latest, { id, of });
const publishing = (of: 'programme' | 'category') => (id: string) => page(Publish, { id, of });
const working = (of: 'flight' | 'publication') => (id: string) =>
  page(Working, { of, id, pilot: asked('pilot') });

type Pages = Partial<Record<Route['name'], (id: string) => LaterPage>>;

const pages: Pages = {
  'contest-new': alone(() => import('./setup/New.svelte')),
  contest: ofOne(() => import('./results/Contest.svelte')),
  category: ofOne(() => import('./results/Category.svelte')),
  flight: ofOne(() => import('./results/Sheet.svelte')),
  'flight-cards': ofOne(() => import('./cards/FlightCards.svelte')),
  'programme-cards': ofOne(() => import('./cards/ProgrammeCards.svelte')),
  scan: alone(() => import('./scan/Scan.svelte')),
  sequence: () => page(Sequence, { target: { kind: 'scratch' } }),
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
  'publication-sheets': (id) => page(Sheets, { id, pilot: asked('pilot') }),
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
  'programme-judge': (id) => page(Own, { id, judge: asked('judge') }),
  seasons: alone(() => import('./season/Seasons.svelte')),
  season: ofOne(() => import('./season/Season.svelte')),
  'season-setup': ofOne(() => import('./season/Setup.svelte')),
  'season-people': ofOne(() => import('./season/People.svelte')),
};

/** The page that a route shows later; nothing where it is there from the start, or where there is none. */
export function laterPage(route: Route): LaterPage | undefined {
  if (route.name === 'setup') return page(Setup, { id: route.id, page: route.page });
  if (route.name === 'pilot') return page(Pilot, { contest: route.id, pilot: route.pilot });
  return pages[route.name]?.('id' in route ? route.id : '');
}
