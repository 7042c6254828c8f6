import { readFileSync } from 'node:fs';
import { expect, test, type Browser, type BrowserContext } from '@playwright/test';
import { Office } from '../e2e/line';

/** Asked for is a first meaningful paint under a second for every page of a contest of so many pilots. */
const pilots = 120;

/** An invented contest of the cases, with each of its pilots several times. */
function large() {
  const bundle = JSON.parse(readFileSync('../testdata/cases/101.bundle.json', 'utf8'));
  const [category] = bundle.categories;
  const [programme] = category.programmes;
  const some = bundle.pilots.length;
  const named = (i: number) => ({ ...bundle.pilots[i % some], id: `p${i}`, name: `Pilot ${i}` });
  bundle.pilots = Array.from({ length: pilots }, (_, i) => named(i));
  category.entries = bundle.pilots.map(({ id }: { id: string }) => ({ pilot: id, ranked: true }));
  const flown = programme.flights.filter((one: { status: string }) => one.status === 'flown');
  programme.flights = bundle.pilots.map(({ id }: { id: string }, i: number) => ({
    ...flown[i % flown.length],
    pilot: id,
  }));
  const combine = { by: 'sum-percent' };
  return { ...bundle, categories: [{ ...category, combine, programmes: [programme] }] };
}

type Cookies = Awaited<ReturnType<BrowserContext['storageState']>>;

/** When the largest part of what is seen was painted, in ms after the page was asked for, nothing of it being there before. */
async function painted(browser: Browser, url: string, cookies: Cookies): Promise<number> {
  const context = await browser.newContext({ storageState: cookies, viewport: { width: 1366, height: 800 } });
  const page = await context.newPage();
  await page.goto(url);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  const ms = await page.evaluate(async () => {
    let last = 0;
    const seen = (list: PerformanceObserverEntryList) => (last = list.getEntries().at(-1)?.startTime ?? last);
    new PerformanceObserver(seen).observe({ type: 'largest-contentful-paint', buffered: true });
    await new Promise((resolve) => setTimeout(resolve, 1_000)); // what comes later may be larger
    return last;
  });
  await context.close();
  return ms;
}

test(`pages of a contest of ${pilots} pilots`, async ({ browser }) => {
  test.setTimeout(300_000);
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
    for (const path of paths) {
      const times: number[] = [];
      for (let n = 0; n < 2; n++) times.push(await painted(browser, office.url + path, cookies));
      const [best, worst] = times.sort((a, b) => a - b).map((ms) => String(Math.round(ms)).padStart(5));
      console.log(`${best} ${worst} ms  ${path.replace(/[0-9a-f]{8}-[0-9a-f-]{27}/, '…')}`);
    }
  } finally {
    await office.stop('SIGTERM');
    office.remove();
  }
});
