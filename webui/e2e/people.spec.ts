import { expect, test, type Page } from '@playwright/test';
import { demoContest, demoForAll, read, withoutAnswers } from './demo';
import { graveHindrances, tooWide } from './hindrances';
import { asOwner, officeToken, publish, signIn } from './office';

const demo = demoForAll(8103, { HALFPOINT_OFFICE_TOKEN: officeToken });

const themes = ['light', 'dark', 'sun'];
const heading = (page: Page) => page.getByRole('heading', { level: 1 });

test.describe('the display for a wall', () => {
  const open = async (page: Page) => {
    await page.goto(`/contests/${await demoContest(page)}`);
    await page.getByRole('link', { name: 'Display for a wall' }).click();
    await expect(page.getByRole('rowheader').first()).toBeVisible();
  };
  const where = (page: Page) => page.getByText(/table \d+ of \d+/);

  test('turns through the tables by itself, in large type, and nothing is cut off', async ({ page }) => {
    await page.setViewportSize({ width: 1920, height: 1080 });
    await open(page);
    const first = await where(page).innerText();
    await expect(where(page)).not.toHaveText(first, { timeout: 30_000 });
    const size = (of: Element) => parseFloat(getComputedStyle(of).fontSize);
    expect(await page.getByRole('rowheader').first().evaluate(size)).toBeGreaterThanOrEqual(28);
    expect(
      await page
        .getByRole('row')
        .last()
        .evaluate((row) => row.getBoundingClientRect().bottom),
    ).toBeLessThan(1080);
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThanOrEqual(1080);
  });

  test('is stepped and paused by keys', async ({ page }) => {
    await open(page);
    await page.keyboard.press(' ');
    await expect(page.getByText('paused')).toBeVisible();
    const title = await heading(page).innerText();
    await page.keyboard.press('ArrowDown');
    await expect(heading(page)).not.toHaveText(title);
    await page.keyboard.press('ArrowUp');
    await expect(heading(page)).toHaveText(title);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    await expect(heading(page)).toHaveText(title);
    await page.keyboard.press(' ');
    await expect(page.getByText('paused')).toBeHidden();
  });

  for (const theme of themes) {
    test(`stands in nobody's way in the ${theme} theme, nor where nothing may move`, async ({ page }) => {
      await page.emulateMedia({ reducedMotion: 'reduce' });
      await page.addInitScript((chosen) => localStorage.setItem('halfpoint.theme', chosen), theme);
      await page.setViewportSize({ width: 390, height: 844 });
      await open(page);
      expect(await graveHindrances(page)).toEqual([]);
      expect(await tooWide(page)).toBeLessThanOrEqual(0);
    });
  }
});

interface Flown {
  contest: string;
  programme: string;
  flights: { id: string; rank?: number; pilot: { id: string; name: string } }[];
}

/** A programme of the demonstration that is all flown, published with time for protests. */
async function published(page: Page): Promise<Flown> {
  const contest = await demoContest(page);
  const { categories } = await read(page, `contests/${contest}`, asOwner);
  const programmes: { id: string; flown: number; flights: number }[] = categories.flatMap(
    (one: { programmes: unknown[] }) => one.programmes,
  );
  const programme = programmes.find(({ flown, flights }) => flights > 6 && flown === flights)?.id ?? '';
  const { publications } = await read(page, `programmes/${programme}/publications`, asOwner);
  if (publications.length === 0) await publish(page, `programmes/${programme}`, { protest_minutes: 90 });
  const { flights } = await read(page, `programmes/${programme}/results`, asOwner);
  return { contest, programme, flights };
}

const second = ({ flights }: Flown) => flights.find(({ rank }) => rank === 2) as Flown['flights'][number];

test('a row that moves in does not move what the reader looks at', async ({ page }) => {
  const { programme, flights } = await published(page);
  await withoutAnswers(page);
  await page.setViewportSize({ width: 820, height: 500 });
  const movesIn = ({ rank = 99 }: { rank?: number }) => rank <= 2;
  const stay = flights.filter((one) => !movesIn(one)).length;
  let all = false;
  await page.route(`**/programmes/${programme}/results`, async (route) => {
    const response = await route.fetch();
    const json = await response.json();
    if (!all) json.flights = json.flights.filter((one: { rank?: number }) => !movesIn(one));
    await route.fulfill({ response, json });
  });
  await page.goto(`/programmes/${programme}`);
  const rows = page.locator('tr[data-key]');
  // The first rows are painted before the rest.
  await expect(rows).toHaveCount(stay);
  const looked = page.locator(`tr[data-key="${await rows.nth(5).getAttribute('data-key')}"]`);
  await looked.evaluate((row) => row.scrollIntoView({ block: 'center' }));
  const top = () => looked.evaluate((row) => Math.round(row.getBoundingClientRect().top));
  const at = await top();
  all = true;
  await expect(rows).toHaveCount(flights.length, { timeout: 30_000 });
  // Once what moved has glided to its place.
  await expect.poll(async () => Math.abs((await top()) - at)).toBeLessThanOrEqual(2);
});

test('a standing says what changed since the publication, and leads to it', async ({ page }) => {
  const { programme } = await published(page);
  await page.route(`**/programmes/${programme}/results/changes`, async (route) => {
    const response = await route.fetch();
    const json = await response.json();
    const change = { pilot: 'x', name: 'Mara Quist' };
    json.changes = [
      { ...change, what: 'score', from: '700.00', to: '710.50' },
      { ...change, what: 'rank', from: '4', to: '3' },
    ];
    await route.fulfill({ response, json });
  });
  await page.goto(`/programmes/${programme}`);
  await expect(page.getByText('rank 3, was 4; score 710.50, was 700.00')).toBeVisible();
  await page
    .getByRole('region', { name: /Since publication/ })
    .getByRole('link')
    .click();
  await expect(page).toHaveURL(/\/publications\//);
});

test('a pilot finds the next start, the results, the time to protest and the kinds of figures', async ({
  page,
}) => {
  const flown = await published(page);
  const { pilot } = second(flown);
  await signIn(page, 'pilot', flown.contest, { pilot: pilot.id });
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(`/contests/${flown.contest}`);
  await page.getByRole('link', { name: 'Your page as a pilot' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(pilot.name);
  await expect(page.getByRole('heading', { name: 'Next start' })).toBeVisible();
  await expect(page.getByText(/\d+ minutes? left to protest|\d+ h \d+ min left to protest/)).toBeVisible();
  await expect(page.getByText('Your free sequence')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'By kind of figure' })).toBeVisible();
  await page.getByText('Protest', { exact: true }).click();
  await page.getByLabel('What is protested, and why').fill('The third figure was flown as drawn.');
  await page.getByRole('button', { name: 'File the protest' }).click();
  await expect(page.getByText('The protest is filed.')).toBeVisible();
  expect(await tooWide(page)).toBeLessThanOrEqual(0);
  expect(await graveHindrances(page)).toEqual([]);
});

test('anyone finds a pilot from a published sheet, and works the score out', async ({ page }) => {
  const flown = await published(page);
  const { pilot } = second(flown);
  await page.goto(`/contests/${flown.contest}/pilots/${pilot.id}`);
  await expect(page.getByText('left to protest')).toBeHidden();
  const score = await page.locator('.score').first().innerText();
  await page.getByRole('link', { name: 'How it came about' }).first().click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText(pilot.name);
  await expect(page.locator('tfoot b').first()).toBeVisible();
  const points = await page.locator('tbody td.num > b').allInnerTexts();
  const off = await page.locator('dd.num').allInnerTexts();
  const number = (text: string) => Number(text.replace('−', '-'));
  const sum = points.reduce((all, text) => all + number(text), 0);
  const penalties = off.slice(1, -1).reduce((all, text) => all + number(text), 0);
  expect((sum + penalties).toFixed(2)).toBe(score);
  expect(off.at(-1)).toBe(score);
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await tooWide(page)).toBeLessThanOrEqual(0);
  expect(await graveHindrances(page)).toEqual([]);
  await page.getByRole('link', { name: 'The sheet' }).click();
  await expect(page.getByRole('link', { name: `All of ${pilot.name}` })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'By kind of figure' })).toBeVisible();
});

for (const theme of themes) {
  test(`the methods stand in nobody's way in the ${theme} theme`, async ({ page }) => {
    await page.addInitScript((chosen) => localStorage.setItem('halfpoint.theme', chosen), theme);
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto('/methods');
    await expect(page.getByRole('table')).toHaveCount(3);
    expect(await tooWide(page)).toBeLessThanOrEqual(0);
    expect(await graveHindrances(page)).toEqual([]);
  });
}

// Last: it stops the server.
test('a wall whose network is gone says since when, and can still be turned', async ({ page }) => {
  await page.goto(`/contests/${await demoContest(page)}/wall`);
  await expect(page.getByRole('rowheader').first()).toBeVisible();
  await page.keyboard.press(' ');
  await expect(page.getByText('paused')).toBeVisible();
  await demo.stop();
  await expect(page.getByText(/No connection since \d\d:\d\d/)).toBeVisible();
  const title = await heading(page).innerText();
  await page.keyboard.press('ArrowDown');
  await expect(heading(page)).not.toHaveText(title);
  await page.keyboard.press('ArrowUp');
  await expect(heading(page)).toHaveText(title);
  await expect(page.getByRole('rowheader').first()).toBeVisible();
});
