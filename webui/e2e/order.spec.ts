import { expect, test, type Page } from '@playwright/test';
import { demoContest, read } from './demo';
import { hindrances, paleInOtherThemes, tooWide } from './hindrances';
import { signIn } from './office';

// A tablet, as the office holds it.
test.use({ viewport: { width: 1180, height: 820 }, hasTouch: true });

/** The programme that is flown last: nothing of it is called while these tests run. */
async function last(page: Page): Promise<string> {
  const { categories } = await read(page, `contests/${await demoContest(page)}`);
  return categories.at(-1).programmes.at(-1).id;
}

async function open(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await expect(page.getByRole('heading', { level: 1, name: 'Running order' })).toBeVisible();
}

const rows = (page: Page) => page.locator('main ol > li:has(.place)');
const pilots = (page: Page) => rows(page).locator('.pilot b');

/** Draws, and waits until the page shows it. */
async function draw(page: Page): Promise<void> {
  const answered = page.waitForResponse((answer) => answer.url().endsWith('/order/draw'));
  await page.getByRole('button', { name: /^Draw/ }).tap();
  const { turns } = await (await answered).json();
  await expect(pilots(page)).toHaveText(turns.map((turn: { pilot: { name: string } }) => turn.pilot.name));
}

test('a lot is drawn, shown with its seed, and repeated by it', async ({ page, browser }) => {
  await signIn(page);
  const path = `/programmes/${await last(page)}/order`;
  await open(page, path);
  await page.getByLabel('Seed').fill('wind 24 kt, briefing');
  await draw(page);
  const drawn = await pilots(page).allInnerTexts();
  await page.getByLabel('How').selectOption('By standing, best last');
  await draw(page);
  await page.getByLabel('How').selectOption('By lot');
  await page.getByLabel('Seed').fill('wind 24 kt, briefing');
  await draw(page);
  await expect(pilots(page)).toHaveText(drawn);

  const anyone = await (await browser.newContext()).newPage();
  await open(anyone, path);
  await expect(anyone.getByText('wind 24 kt, briefing').first()).toBeVisible();
  await expect(anyone.getByText('Nothing here says whether', { exact: false })).toBeVisible();
  await expect(pilots(anyone)).toHaveText(drawn);
  await expect(anyone.getByRole('main').getByRole('button')).toHaveCount(0);
  await anyone.context().close();
});

test('a flight is moved with keys alone, and nobody writes over what they did not see', async ({
  page,
  browser,
}) => {
  await signIn(page);
  const path = `/programmes/${await last(page)}/order`;
  await open(page, path);
  await expect(rows(page)).toHaveCount(5);
  const [first = '', second = '', ...others] = await pilots(page).allInnerTexts();
  await page.getByRole('button', { name: `Move ${first} down` }).focus();
  await page.keyboard.press('Enter');
  await expect(pilots(page)).toHaveText([second, first, ...others]);
  await expect(page.getByRole('button', { name: `Move ${first} down` })).toBeFocused();
  await page.getByLabel(`Place of ${first}`).focus();
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.type('5');
  await page.keyboard.press('Enter');
  await expect(pilots(page).last()).toHaveText(first);

  const other = await (await browser.newContext()).newPage();
  await signIn(other);
  await open(other, path);
  await other.getByRole('button', { name: `Move ${second} down` }).click();
  await other.getByRole('button', { name: 'Keep this order' }).click();
  await expect(other.getByText('The order is kept.')).toBeVisible();
  await other.context().close();

  await expect(page.getByText('Somebody else changed the order meanwhile', { exact: false })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Keep this order' })).toBeDisabled();
  await page.getByRole('button', { name: 'Discard' }).tap();
  await expect(pilots(page)).toHaveText([first, ...others.slice(0, 1), second, ...others.slice(1)]);
});

test('nothing hinders a reader of the running order, and a phone shows all of it', async ({ page }) => {
  await signIn(page);
  await open(page, `/programmes/${await last(page)}/order`);
  await expect(page.getByLabel('How')).toBeVisible();
  await page
    .getByRole('button', { name: /^Move .* down$/ })
    .first()
    .tap();
  await expect(page.getByRole('button', { name: 'Keep this order' })).toBeVisible();
  expect(await hindrances(page)).toEqual([]);
  expect(await paleInOtherThemes(page)).toEqual([]);
  await page.setViewportSize({ width: 390, height: 844 });
  await expect.poll(() => tooWide(page)).toBeLessThanOrEqual(0);
});
