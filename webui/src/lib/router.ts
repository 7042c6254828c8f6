/** The addresses of the application, and the browser's history under them. */

/** The pages of a set-up in the order in which one is made. */
export const setupPages = [
  'contest',
  'categories',
  'programmes',
  'pilots',
  'judges',
  'panels',
  'penalties',
] as const;
export type SetupPage = (typeof setupPages)[number];

/** What an address shows. */
export type Route =
  | { name: 'contests' }
  | { name: Entry<typeof collections> | Entry<typeof below>; id: string }
  | { name: Entry<typeof alone> }
  | { name: 'contest-new' }
  | { name: 'setup'; id: string; page: SetupPage }
  | { name: 'pilot'; id: string; pilot: string }
  | { name: 'nowhere' };

type Entry<T> = T[keyof T];

const collections = {
  contests: 'contest',
  programmes: 'programme',
  categories: 'category',
  flights: 'flight',
  publications: 'publication',
  seasons: 'season',
} as const;

/** What stands below one of a collection: `/flights/7/cards`. */
const below = {
  'flights/cards': 'flight-cards',
  'flights/paper': 'flight-paper',
  'programmes/cards': 'programme-cards',
  'programmes/order': 'programme-order',
  'programmes/paper': 'programme-paper',
  'flights/sequence': 'flight-sequence',
  'programmes/sequence': 'programme-sequence',
  'categories/limits': 'category-limits',
  'contests/numbers': 'contest-numbers',
  'contests/people': 'contest-people',
  'publications/sheets': 'publication-sheets',
  'contests/publications': 'contest-publications',
  'programmes/published': 'programme-published',
  'categories/published': 'category-published',
  'contests/devices': 'contest-devices',
  'contests/office': 'contest-office',
  'contests/announcer': 'contest-announcer',
  'contests/wall': 'contest-wall',
  'contests/pilot': 'contest-pilot',
  'flights/working': 'flight-working',
  'publications/working': 'publication-working',
  'programmes/publish': 'programme-publish',
  'categories/publish': 'category-publish',
  'programmes/protests': 'programme-protests',
  'contests/analyses': 'contest-analyses',
  'programmes/analysis': 'programme-analysis',
  'programmes/judge': 'programme-judge',
  'seasons/setup': 'season-setup',
  'seasons/people': 'season-people',
} as const;

/** Pages that belong to no one thing. */
const alone = {
  scan: 'scan',
  sequence: 'sequence',
  office: 'office',
  pair: 'pair',
  trust: 'trust',
  first: 'first',
  'sign-in': 'sign-in',
  invitation: 'invitation',
  password: 'password',
  account: 'account',
  methods: 'methods',
  seasons: 'seasons',
} as const;

/** Reads a path; a path that means nothing is `nowhere`. */
export function match(path: string): Route {
  const parts = path.split('/').filter((part) => part !== '');
  if (parts.length === 0) return { name: 'contests' };
  if (parts[0] === 'contests') {
    if (parts.length === 2 && parts[1] === 'new') return { name: 'contest-new' };
    if (parts[2] === 'setup') return setup(parts);
    if (parts[2] === 'pilots') return pilot(parts);
  }
  const [collection = '', id = '', page] = parts;
  const single = parts.length === 1 ? own(alone, collection) : undefined;
  if (single) return { name: single };
  const name = page === undefined ? own(collections, collection) : own(below, `${collection}/${page}`);
  const text = decoded(id);
  if (parts.length > 3 || !name || !text) return { name: 'nowhere' };
  return { name, id: text } as Route;
}

/** `/contests/7/setup/pilots`; without a page that of the contest itself. */
function setup([, part = '', , named = 'contest', ...more]: string[]): Route {
  const id = decoded(part);
  const page = setupPages.find((one) => one === named);
  return id && page && more.length === 0 ? { name: 'setup', id, page } : { name: 'nowhere' };
}

/** `/contests/7/pilots/p12` */
function pilot([, contest = '', , named = '', ...more]: string[]): Route {
  const [id, who] = [decoded(contest), decoded(named)];
  return id && who && more.length === 0 ? { name: 'pilot', id, pilot: who } : { name: 'nowhere' };
}

/** A table's entry, never one that every object has. */
function own<T extends object>(table: T, key: string): T[keyof T] | undefined {
  return Object.hasOwn(table, key) ? table[key as keyof T] : undefined;
}

/** Writes the path that `match` reads. */
export const to = {
  contests: () => '/',
  contest: (id: string) => `/contests/${encodeURIComponent(id)}`,
  newContest: () => '/contests/new',
  setup: (id: string, page: SetupPage = 'contest') =>
    `/contests/${encodeURIComponent(id)}/setup${page === 'contest' ? '' : `/${page}`}`,
  programme: (id: string) => `/programmes/${encodeURIComponent(id)}`,
  category: (id: string) => `/categories/${encodeURIComponent(id)}`,
  flight: (id: string) => `/flights/${encodeURIComponent(id)}`,
  flightCards: (id: string) => `/flights/${encodeURIComponent(id)}/cards`,
  programmePaper: (id: string) => `/programmes/${encodeURIComponent(id)}/paper`,
  flightPaper: (id: string) => `/flights/${encodeURIComponent(id)}/paper`,
  flightSequence: (id: string) => `/flights/${encodeURIComponent(id)}/sequence`,
  programmeSequence: (id: string) => `/programmes/${encodeURIComponent(id)}/sequence`,
  limits: (id: string) => `/categories/${encodeURIComponent(id)}/limits`,
  numbers: (id: string) => `/contests/${encodeURIComponent(id)}/numbers`,
  devices: (id: string) => `/contests/${encodeURIComponent(id)}/devices`,
  scan: () => '/scan',
  sequence: () => '/sequence',
  office: () => '/office',
  /** A page of its own, which this application does not show: it is loaded anew. */
  line: () => '/line',
  pair: () => '/pair',
  trust: () => '/trust',
  /** With where to go on afterwards. */
  signIn: (path = '') => '/sign-in' + (path === '' || path === '/' ? '' : `?to=${encodeURIComponent(path)}`),
  account: () => '/account',
  people: (id: string) => `/contests/${encodeURIComponent(id)}/people`,
  publication: (id: string) => `/publications/${encodeURIComponent(id)}`,
  /** Of all pilots, or of one, by the id in the publication. */
  publishedSheets: (id: string, pilot = '') =>
    `/publications/${encodeURIComponent(id)}/sheets${pilot && `?pilot=${encodeURIComponent(pilot)}`}`,
  wall: (contest: string) => `/contests/${encodeURIComponent(contest)}/wall`,
  /** The page of the pilot who is signed in. */
  ownPilot: (contest: string) => `/contests/${encodeURIComponent(contest)}/pilot`,
  /** A pilot's, by the id or by the one in bundles. */
  pilot: (contest: string, pilot: string) =>
    `/contests/${encodeURIComponent(contest)}/pilots/${encodeURIComponent(pilot)}`,
  working: (flight: string) => `/flights/${encodeURIComponent(flight)}/working`,
  publishedWorking: (id: string, pilot: string) =>
    `/publications/${encodeURIComponent(id)}/working?pilot=${encodeURIComponent(pilot)}`,
  methods: () => '/methods',
  publications: (contest: string) => `/contests/${encodeURIComponent(contest)}/publications`,
  announcer: (id: string) => `/contests/${encodeURIComponent(id)}/announcer`,
  contestOffice: (id: string) => `/contests/${encodeURIComponent(id)}/office`,
  publishProgramme: (id: string) => `/programmes/${encodeURIComponent(id)}/publish`,
  publishCategory: (id: string) => `/categories/${encodeURIComponent(id)}/publish`,
  /** Of the judges of a contest, of a programme's panel, of one judge. */
  analyses: (contest: string) => `/contests/${encodeURIComponent(contest)}/analyses`,
  analysis: (programme: string) => `/programmes/${encodeURIComponent(programme)}/analysis`,
  judgeAnalysis: (programme: string, judge: string) =>
    `/programmes/${encodeURIComponent(programme)}/judge?judge=${encodeURIComponent(judge)}`,
  seasons: () => '/seasons',
  season: (id: string) => `/seasons/${encodeURIComponent(id)}`,
  seasonSetup: (id: string) => `/seasons/${encodeURIComponent(id)}/setup`,
  seasonPeople: (id: string) => `/seasons/${encodeURIComponent(id)}/people`,
  protests: (programme: string) => `/programmes/${encodeURIComponent(programme)}/protests`,
  /** What is published of it last. */
  publishedProgramme: (id: string) => `/programmes/${encodeURIComponent(id)}/published`,
  publishedCategory: (id: string) => `/categories/${encodeURIComponent(id)}/published`,
  order: (id: string) => `/programmes/${encodeURIComponent(id)}/order`,
  programmeCards: (id: string) => `/programmes/${encodeURIComponent(id)}/cards`,
};

/** Goes to a path of the application; `instead` of the present one, where going back is not to lead here. */
export function go(path: string, instead = false): void {
  if (instead) history.replaceState(null, '', path);
  else history.pushState(null, '', path);
  scrollTo(0, 0);
  dispatchEvent(new PopStateEvent('popstate'));
}

/** Where a `?to=` leads: a path of the application and nowhere else. */
export function onward(search: string): string | undefined {
  const path = new URLSearchParams(search).get('to') ?? '';
  const url = new URL(path, location.origin);
  const own = path.startsWith('/') && url.origin === location.origin;
  return own && match(url.pathname).name !== 'nowhere' ? url.pathname + url.search : undefined;
}

function decoded(part: string): string | undefined {
  try {
    return decodeURIComponent(part);
  } catch {
    return undefined;
  }
}

/**
 * Calls `show` with the route of every address that the reader goes to from now
 * on. Plain clicks on links into the application stay in the page.
 */
export function follow(show: (route: Route) => void): () => void {
  const present = () => show(match(location.pathname));
  const clicked = (event: MouseEvent) => {
    const path = ownPath(event);
    if (path === undefined) return;
    event.preventDefault();
    history.pushState(null, '', path);
    scrollTo(0, 0);
    present();
  };
  addEventListener('popstate', present);
  document.addEventListener('click', clicked);
  return () => {
    removeEventListener('popstate', present);
    document.removeEventListener('click', clicked);
  };
}

/** The path of the application that a click leads to, if it is the application's to follow. */
function ownPath(event: MouseEvent): string | undefined {
  if (event.defaultPrevented || event.button !== 0) return undefined;
  if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return undefined;
  const link = event.target instanceof Element ? event.target.closest('a') : null;
  if (!link || link.target !== '' || link.hasAttribute('download')) return undefined;
  const url = new URL(link.href, location.href);
  if (url.origin !== location.origin || url.hash !== '') return undefined;
  return match(url.pathname).name === 'nowhere' ? undefined : url.pathname + url.search;
}
