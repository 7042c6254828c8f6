import { gzipSync } from 'node:zlib';
import { expect, test, type Page } from '@playwright/test';
import { hindrancesOnTheLine } from './hindrances';
import { grade, officeForAll, outside, pairByLink, sizes, Tablet, tooSmall, word } from './line';

const office = officeForAll();

const whole = ['7.5', '8.0', 'hard zero', '6.5', 'not seen', '9.0', '7.0', '8.5'];
const written = ['7.5', '8.0', 'HZ', '6.5', 'A', '9.0', '7.0', '8.5'];

async function choose(page: Page, flight: number): Promise<void> {
  await page.getByRole('button', { name: new RegExp(`^${flight}\\b`) }).click();
  await expect(page.getByRole('heading', { name: `Flight ${flight}` })).toBeVisible();
}

test('a tablet is paired by a code that is typed, and knows flights by number alone', async ({ browser }) => {
  const page = await (await browser.newContext({ viewport: sizes.upright, hasTouch: true })).newPage();
  const [judge] = await office.judges();
  const { code } = await office.offer('judge', judge?.id);
  await page.goto(`${office.url}/pair`);
  await page.getByLabel('Code from the office').fill('AAAA-AAAA');
  await page.getByRole('button', { name: 'Look it up' }).click();
  await expect(page.getByRole('alert')).toContainText('not good');
  await page.getByLabel('Code from the office').fill(`${code.slice(0, 4).toLowerCase()} ${code.slice(4)}`);
  await page.getByRole('button', { name: 'Look it up' }).click();
  await expect(page.getByText(`The seat of ${judge?.name}`)).toBeVisible();
  await page.getByRole('button', { name: 'Pair this tablet' }).click();
  await page.waitForURL('**/line');
  await choose(page, 1);
  await expect(page.getByText('pilot')).toHaveCount(0);
  await page.context().close();
});

for (const [held, viewport] of Object.entries(sizes)) {
  test(`a sheet is graded and signed, tap by tap, held ${held}`, async ({ browser }) => {
    const page = await (await browser.newContext({ viewport, hasTouch: true })).newPage();
    const judge = (await office.judges())[held === 'across' ? 1 : 2];
    await pairByLink(page, office, 'judge', judge?.id);
    await choose(page, 1);
    await grade(page, whole.slice(0, 3));
    await page.getByRole('button', { name: 'Take back' }).click();
    await grade(page, whole.slice(2));
    const scrolls = () => document.documentElement.scrollHeight > document.documentElement.clientHeight;
    expect(await page.evaluate(scrolls)).toBe(false);
    await page.getByRole('button', { name: 'Sign flight 1' }).click();
    await expect(page.getByText('Flight 1 is signed.')).toBeVisible();
    await expect(word(page)).toHaveText('all at the office');
    const sheet = await office.sheet(await office.flight(1), judge?.id ?? '');
    expect(sheet).toEqual({ state: 'signed', grades: written, records: written.length + 2 });
    await page.context().close();
  });

  for (const theme of ['light', 'dark', 'sun']) {
    test(`the keys can be hit and read in the ${theme} theme, held ${held}`, async ({ browser }) => {
      const page = await (await browser.newContext({ viewport, hasTouch: true })).newPage();
      await page.addInitScript((name) => localStorage.setItem('halfpoint.theme', name), theme);
      const judge = (await office.judges())[3];
      await pairByLink(page, office, 'judge', judge?.id);
      await choose(page, 2);
      await check(page);
      await page.getByRole('button', { name: /^Remark/ }).click();
      await check(page);
      await page.getByRole('button', { name: 'Whole sheet' }).click();
      await check(page);
      await page.context().close();
    });
  }
}

/** Everything can be hit with a glove, seen in the sun, and lies on the screen. */
async function check(page: Page): Promise<void> {
  expect(await tooSmall(page)).toEqual([]);
  expect(await outside(page)).toEqual([]);
  expect(await hindrancesOnTheLine(page)).toEqual([]);
}

test('a flight is graded, signed and sent though network, page, browser and server go away', async ({
  browser,
}, info) => {
  const launch = info.project.use.launchOptions ?? {};
  const options = { executablePath: launch.executablePath ?? '', args: launch.args ?? [] };
  const judge = (await office.judges())[4]?.id ?? '';
  const tablet = new Tablet(browser);
  let page = await tablet.start(options);
  await pairByLink(page, office, 'judge', judge);
  await choose(page, 3);
  await grade(page, whole.slice(0, 2));
  await expect(word(page)).toHaveText('all at the office');
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));

  await office.stop('SIGKILL'); // as if its machine lost its power
  await tablet.context.setOffline(true);
  await grade(page, whole.slice(2, 4));
  await expect(word(page)).toHaveText('2 waiting');
  await page.reload();
  await expect(page.getByRole('heading', { name: 'Flight 3' })).toBeVisible();
  await grade(page, whole.slice(4, 6));
  await tablet.end();

  page = await tablet.start(options);
  await tablet.context.setOffline(true);
  await page.goto(`${office.url}/line`);
  await expect(page.getByRole('heading', { name: 'Flight 3' })).toBeVisible();
  await grade(page, whole.slice(6));
  await page.getByRole('button', { name: 'Sign flight 3' }).click();
  await expect(page.getByText('Flight 3 is signed.')).toBeVisible();
  await expect(word(page)).toHaveText('7 waiting');

  await office.start();
  await tablet.context.setOffline(false);
  await expect(word(page)).toHaveText('all at the office', { timeout: 30_000 });
  const sheet = await office.sheet(await office.flight(3), judge);
  expect(sheet).toEqual({ state: 'signed', grades: written, records: written.length });
  await tablet.end();
  tablet.remove();
});

test('what a tablet keeps of the pages weighs under 200 kB in all', async ({ browser }) => {
  const page = await (await browser.newContext()).newPage();
  await pairByLink(page, office, 'chief');
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  const kept = await page.evaluate(async () => {
    const all = await Promise.all(
      (await caches.keys()).map(async (name) => (await caches.open(name)).keys()),
    );
    return all.flat().map(({ url }) => url);
  });
  expect(kept.filter((url) => url.endsWith('.js')).length).toBeGreaterThan(5);
  const sizes = await Promise.all(
    kept.map(async (url) => gzipSync(await (await page.request.get(url)).body()).length),
  );
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(200_000);
  await page.context().close();
});

test('what a tablet that was paired after the backup made reaches the server that was restored from it', async ({
  browser,
}) => {
  const judge = (await office.judges()).at(-1)?.id ?? '';
  await office.backUp();
  const page = await (await browser.newContext({ viewport: sizes.across, hasTouch: true })).newPage();
  await pairByLink(page, office, 'judge', judge);
  await choose(page, 2);
  await grade(page, ['7.5', '8.0']);
  await expect(word(page)).toHaveText('all at the office');

  await office.restore();
  await grade(page, ['6.5']);
  await expect(page.getByRole('alert')).toContainText('does not take this tablet any more');
  await expect(word(page)).toHaveText('1 waiting');
  await pairByLink(page, office, 'judge', judge);
  await expect(page.getByRole('button', { name: '3, Figure 3: 6.5' })).toBeVisible();
  await expect(word(page)).toHaveText('all at the office');
  const sheet = await office.sheet(await office.flight(2), judge);
  expect(sheet.grades.slice(0, 4)).toEqual(['7.5', '8.0', '6.5', '']);
  await page.context().close();
});
