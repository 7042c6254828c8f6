import { expect, test, type Browser, type BrowserContext } from '@playwright/test';
import { Office } from '../e2e/line';
import { large, pilots } from './large';
import { painted, type Painted } from './painted';

/** Each page is opened so often, all of them in turn, so that a machine that has other work is as busy for one as for the next. */
const rounds = 5;

/** A heading and nothing to load: what the machine and the browser take by themselves. */
const nothing = '/nothing';

type Cookies = Awaited<ReturnType<BrowserContext['storageState']>>;

/** When a page was painted, nothing of it being there before. */
async function opened(browser: Browser, url: string, cookies: Cookies): Promise<Painted> {
  const context = await browser.newContext({ storageState: cookies, viewport: { width: 1366, height: 800 } });
  const page = await context.newPage();
  await page.route(`**${nothing}`, (route) =>
    route.fulfill({
      contentType: 'text/html',
      body: '<!doctype html><title>Nothing</title><h1>Nothing</h1>',
    }),
  );
  await page.goto(url);
  const found = await painted(page);
  await context.close();
  return found;
}

/**
 * Prints for each page the median of the first paint, the median and the worst of the
 * largest, in ms, and that median as so many times that of nothing. What the server drew
 * of a standing is in the first; a browser does not count it as the largest, since the
 * script's own table takes its place.
 */
function say(times: Map<string, Painted[]>): void {
  const median = (all: number[]) => all.toSorted((a, b) => a - b)[Math.floor(rounds / 2)] ?? 0;
  const of = (path: string, what: keyof Painted) => (times.get(path) ?? []).map((one) => one[what]);
  const shown = (ms: number) => String(Math.round(ms)).padStart(5);
  const least = median(of(nothing, 'largest'));
  console.log('first median worst  times nothing');
  for (const path of times.keys()) {
    const largest = of(path, 'largest');
    const ms = [median(of(path, 'first')), median(largest), Math.max(...largest)].map(shown).join(' ');
    const name = path.replace(/[0-9a-f]{8}-[0-9a-f-]{27}/, '…');
    console.log(`${ms} ms ${(median(largest) / least).toFixed(1).padStart(4)}  ${name}`);
  }
}

test(`pages of a contest of ${pilots} pilots`, async ({ browser }) => {
  test.setTimeout(1_200_000);
  const office = new Office(8099);
  try {
    await office.start();
    const { id } = await office.ask<{ id: string }>('bundles?opened=live', large());
    const { categories } = await office.ask<{ categories: { id: string; programmes: { id: string }[] }[] }>(
      `contests/${id}`,
    );
    const [category] = categories;
    const programme = category?.programmes[0]?.id;
    const { flights } = await office.ask<{ flights: { id: string }[] }>(`programmes/${programme}/results`);
    const { link } = await office.ask<{ link: string }>(`contests/${id}/invitations`, { role: 'director' });
    const context = await browser.newContext();
    const account = { email: 'mara@example.org', name: 'Mara Quist', password: 'a crow on every fence post' };
    const url = `${office.url}/api/v1/invitations/acceptance`;
    expect((await context.request.post(url, { data: { link, account } })).status()).toBe(201);
    const cookies = await context.storageState();
    const paths = [
      nothing,
      '/',
      `/contests/${id}`,
      `/categories/${category?.id}`,
      `/programmes/${programme}`,
      `/flights/${flights[0]?.id}`,
      `/contests/${id}/office`,
      `/programmes/${programme}/order`,
      `/programmes/${programme}/paper`,
      `/programmes/${programme}/publish`,
      `/contests/${id}/devices`,
      `/contests/${id}/people`,
      ...['', 'categories', 'programmes', 'pilots', 'judges', 'panels', 'penalties'].map((part) =>
        `/contests/${id}/setup/${part}`.replace(/\/$/, ''),
      ),
    ];
    const times = new Map(paths.map((path) => [path, [] as Painted[]]));
    for (let n = 0; n < rounds; n++)
      for (const path of paths) times.get(path)?.push(await opened(browser, office.url + path, cookies));
    say(times);
  } finally {
    await office.stop('SIGTERM');
    office.remove();
  }
});
