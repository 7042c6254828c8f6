import { expect, test, type Page } from '@playwright/test';
import { demoContest, demoForAll, read } from './demo';
import { graveHindrances, tooWide } from './hindrances';

demoForAll(8092);

/** The first page that a spectator opens may weigh this much in all, as sent. */
const mostBytes = 100_000;

interface Found {
  programme: string;
  category: string;
  contest: string;
}

/** The programme that is flown now: some of its flights are placed, others still to come in. */
async function underWay(page: Page): Promise<Found> {
  let found: Found | undefined;
  // Between two programmes none is under way for as long as a flight lasts.
  await expect.poll(async () => (found = await underWayNow(page)), { timeout: 45_000 }).toBeDefined();
  return found as unknown as Found;
}

async function underWayNow(page: Page): Promise<Found | undefined> {
  const contest = await demoContest(page);
  const { categories } = await read(page, `contests/${contest}`);
  for (const category of categories) {
    for (const programme of category.programmes) {
      if (programme.flown > 0 && programme.flown < programme.flights && (await ranked(page, programme.id))) {
        return { programme: programme.id, category: category.id, contest };
      }
    }
  }
  return undefined;
}

/** Whether a flight has its rank: one that has landed may still wait for a signature. */
async function ranked(page: Page, programme: string): Promise<boolean> {
  const { flights } = await read(page, `programmes/${programme}/results`);
  return flights.some((flight: { rank?: number }) => flight.rank !== undefined);
}

const placed = (page: Page) => page.locator('tbody').first().locator('tr[data-key]');

async function open(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
}

test('the list of contests leads to a contest and on to its standings', async ({ page }) => {
  const { contest, programme } = await underWay(page);
  await open(page, '/');
  await page.locator(`a[href="/contests/${contest}"]`).click();
  await page.locator(`a[href="/programmes/${programme}"]`).click();
  await expect(placed(page).first()).toBeVisible();
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
  await page.goBack();
  await expect(page).toHaveURL(`/contests/${contest}`);
});

test('rows stand in the order of their ranks', async ({ page }) => {
  const { programme } = await underWay(page);
  await open(page, `/programmes/${programme}`);
  await expect(placed(page).first()).toBeVisible();
  const texts = await placed(page).locator('td.rank').allInnerTexts();
  const ranks = texts.map((text) => parseInt(text, 10)).filter((rank) => !Number.isNaN(rank));
  expect(ranks.length).toBeGreaterThan(0);
  expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
});

test('what comes in shows without a reload', async ({ page }) => {
  const { programme } = await underWay(page);
  await open(page, `/programmes/${programme}`);
  await expect(page.getByText('live', { exact: true })).toBeVisible();
  await page.evaluate(() => ((window as { mark?: boolean }).mark = true));
  const before = await page.locator('main').innerText();
  await expect.poll(() => page.locator('main').innerText(), { timeout: 45_000 }).not.toBe(before);
  expect(await page.evaluate(() => (window as { mark?: boolean }).mark)).toBe(true);
});

test('a placed pilot opens a sheet whose score is the one in the standings', async ({ page }) => {
  const { programme } = await underWay(page);
  await open(page, `/programmes/${programme}`);
  const flight = (await placed(page).first().getByRole('link').getAttribute('href')) ?? '';
  // By its address: ranks may change before the click.
  const link = page.locator(`a[href="${flight}"]`);
  const name = await link.innerText();
  await link.click();
  await expect(page).toHaveURL(flight);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(name);
  await expect(page.getByRole('heading', { name: 'Figure by figure' })).toBeVisible();
  // Read again each time: it moves while others are graded.
  await expect(async () => {
    const { flight: shown } = await read(page, `${flight.slice(1)}/result`);
    await expect(page.locator('dl').first()).toContainText(shown.score.toFixed(2), { timeout: 1_000 });
  }).toPass();
});

/** Another theme changes colours alone; in the sun they must stand out more. */
const rules = {
  light: undefined,
  dark: ['color-contrast', 'link-in-text-block'],
  sun: ['color-contrast', 'color-contrast-enhanced', 'link-in-text-block'],
};

for (const [theme, only] of Object.entries(rules)) {
  test(`nothing stands in a reader's way in the ${theme} theme`, async ({ page }) => {
    test.slow(); // five pages are examined, and a sheet has much in it
    await page.addInitScript((chosen) => localStorage.setItem('halfpoint.theme', chosen), theme);
    const { programme, category, contest } = await underWay(page);
    await open(page, `/programmes/${programme}`);
    await expect(page.locator('html')).toHaveAttribute('data-theme', theme);
    const sheet = await placed(page).first().getByRole('link').getAttribute('href');
    for (const path of [page.url(), sheet ?? '', `/categories/${category}`, `/contests/${contest}`, '/']) {
      await open(page, path);
      expect(await graveHindrances(page, only), path).toEqual([]);
    }
  });
}

test('a phone shows every page without scrolling sideways, with targets of 44 px', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const { programme, category, contest } = await underWay(page);
  await open(page, `/programmes/${programme}`);
  const sheet = await placed(page).first().getByRole('link').getAttribute('href');
  for (const path of [page.url(), sheet ?? '', `/categories/${category}`, `/contests/${contest}`, '/']) {
    await open(page, path);
    expect(await tooWide(page), path).toBeLessThanOrEqual(0);
    expect(await page.evaluate(smallTargets), path).toEqual([]);
  }
});

/** What can be hit and is lower than 44 px; a link may fill the row or the cell around it. */
function smallTargets(): string[] {
  const all = [...document.querySelectorAll<HTMLElement>('main a, main button, header a, header select')];
  const placed = (from: HTMLElement): HTMLElement =>
    getComputedStyle(from).position === 'static' && from.parentElement ? placed(from.parentElement) : from;
  const high = (target: HTMLElement) => {
    const fills = getComputedStyle(target, '::after').position === 'absolute';
    return (fills ? placed(target) : target).getBoundingClientRect().height;
  };
  return all.filter((target) => !target.closest('.unseen') && high(target) < 44).map((one) => one.outerHTML);
}

test('the first standings page weighs under 100 kB in all', async ({ page }) => {
  const { programme } = await underWay(page);
  const network = await page.context().newCDPSession(page);
  await network.send('Network.enable');
  let bytes = 0;
  network.on('Network.loadingFinished', (done) => (bytes += done.encodedDataLength));
  await open(page, `/programmes/${programme}`);
  await page.evaluate(() => document.fonts.ready);
  await page.waitForLoadState('load');
  expect(bytes).toBeGreaterThan(20_000);
  expect(bytes).toBeLessThan(mostBytes);
});

test('a busy line does not have the standings read over and over', async ({ page }) => {
  const { categories } = await read(page, `contests/${await demoContest(page)}`);
  // As busy as can be: whenever it is listened to, it tells of change upon change.
  let version = 0;
  const change = () => `id: another:${version++}\ndata: {}\n\n`;
  await page.route('**/events', (route) =>
    route.fulfill({ contentType: 'text/event-stream', body: Array.from({ length: 50 }, change).join('') }),
  );
  const asked: number[] = [];
  page.on('request', (request) => {
    if (request.url().endsWith('/results')) asked.push(Date.now());
  });
  await open(page, `/programmes/${categories[0].programmes[0].id}`);
  await expect.poll(() => asked.length, { timeout: 30_000 }).toBeGreaterThan(6);
  // The first reading, which the browser may begin by itself, one when the stream opens, then one every three seconds.
  const apart = asked.slice(3).map((at, i) => at - (asked[i + 2] ?? 0));
  expect(Math.min(...apart)).toBeGreaterThan(2_900);
});

test('the content policy stops nothing that the pages do', async ({ page }) => {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  const { programme } = await underWay(page);
  await open(page, `/programmes/${programme}`);
  await placed(page).first().getByRole('link').click();
  await expect(page.getByRole('heading', { name: 'Figure by figure' })).toBeVisible();
  expect(complaints).toEqual([]);
});
