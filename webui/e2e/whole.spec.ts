import { expect, test, type Page } from '@playwright/test';
import { officeForAll, pairByLink, sizes } from './line';

/** A whole contest, small, from a server that nobody has an account on to an official result. */

const office = officeForAll(8098, () => Promise.resolve());

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true });
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { level: 1, name });
const row = (page: Page) => page.locator('[data-row]').last();

async function save(page: Page): Promise<void> {
  await button(page, 'Save').click();
  await expect(page.getByText('Saved.', { exact: true })).toBeVisible();
}

async function part(page: Page, name: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Pages of the set-up' }).getByRole('link', { name }).click();
  await expect(heading(page, name)).toBeVisible();
}

/** Builds a figure by its keys. */
async function build(page: Page, k: string, called: string, ...keys: string[]): Promise<void> {
  await button(page, 'Insert a figure').click();
  for (const key of keys) await button(page, key).click();
  await page.getByLabel('K of the figure').fill(k);
  await expect(page.getByRole('heading', { level: 2, name: called })).toBeVisible();
}

/** Types one paper sheet and sends it; where to go on is shown by itself. */
async function read(page: Page, grades: string[]): Promise<void> {
  await expect(page.locator('#grade-0')).toBeFocused();
  await expect(page.locator('#grade-0')).toHaveValue('');
  const answered = page.waitForResponse((answer) => answer.request().method() === 'PUT');
  for (const grade of grades) {
    await page.keyboard.type(grade);
    await page.keyboard.press('Enter');
  }
  await page.keyboard.press('Enter');
  expect((await answered).status()).toBe(200);
}

test('a contest goes from nothing to an official result, in the browser', async ({ page, browser }, info) => {
  test.setTimeout(240_000);
  page.setDefaultTimeout(15_000);
  let pictures = 0;
  const picture = (name: string) =>
    page.screenshot({
      path: info.outputPath(`${String(++pictures).padStart(2, '0')}-${name}.png`),
      fullPage: true,
    });

  await test.step('the first account owns the server', async () => {
    await expect.poll(() => office.said).toContain('/first#');
    await page.goto(office.said.match(/http:\S+\/first#\S+/)?.[0] ?? '');
    await page.getByLabel('Your name').fill('Mara Quist');
    await page.getByLabel('E-mail address').fill('mara@example.org');
    await page.getByLabel(/^(New p|P)assword$/).fill('a crow on every fence post');
    await picture('first');
    await page.locator('form button.main').click();
    await expect(heading(page, 'Your account')).toBeVisible();
  });

  await test.step('a contest is made and set up', async () => {
    await page.goto(`${office.url}/contests/new`);
    await page.getByLabel('Name').fill('Lind Trophy');
    await page.getByLabel('Place').fill('Lindholm');
    await button(page, 'Make the contest').click();
    await expect(page).toHaveURL(/\/setup$/);
    office.contest = new URL(page.url()).pathname.split('/')[2] ?? '';
    await picture('setup');

    await part(page, 'Categories');
    await button(page, 'Add a category').click();
    await row(page).getByLabel('Name', { exact: true }).fill('Meadow');
    await row(page).getByLabel('Name', { exact: true }).blur();
    await save(page);
    await picture('categories');

    await part(page, 'Programmes');
    await button(page, 'Add a programme: Meadow').click();
    await row(page).getByLabel('Name', { exact: true }).fill('Known');
    await row(page)
      .getByLabel(/^Method/)
      .selectOption('mean');
    await save(page);
    await picture('programmes');

    await part(page, 'Pilots');
    await page
      .getByLabel('or paste the table here')
      .fill('name;affiliation;category\nAnn Ash;Hill;Meadow\nBea Birch;Vale;Meadow\n');
    await button(page, 'Read it').click();
    await expect(page.getByText('2 rows read', { exact: false })).toBeVisible();
    await save(page);
    await picture('pilots');

    await part(page, 'Judges');
    for (const name of ['Kim Oak', 'Lee Pine']) {
      await button(page, 'Add a judge').click();
      await row(page).getByLabel('Name', { exact: true }).fill(name);
    }
    await save(page);
    await picture('judges');

    await part(page, 'Panels');
    const panel = page.getByRole('listitem', { name: 'Known' });
    await panel.getByLabel('Add a seat').selectOption('Kim Oak');
    await panel.getByLabel('Add a seat').selectOption('Lee Pine');
    await save(page);
    await picture('panels');
  });

  const { programmes } = await (
    await page.request.get(`${office.url}/api/v1/contests/${office.contest}/setup`)
  ).json();
  const programme = `${office.url}/programmes/${programmes[0].id}`;

  await test.step('the sequence is built and registered', async () => {
    await page.goto(`${programme}/sequence`);
    await build(page, '10', 'Loop', 'Pull 360°');
    await build(page, '14', 'Half Cuban eight', 'Pull 225°', 'Roll ½', 'Pull 45°');
    await button(page, 'Register').first().click();
    await expect(page.getByText('It is what you see.', { exact: false })).toBeVisible();
    await picture('sequence');
  });

  await test.step('the order is drawn', async () => {
    await page.goto(`${programme}/order`);
    await page.getByLabel('Seed').fill('the wind at the briefing');
    await page.getByRole('button', { name: /^Draw/ }).click();
    await expect(page.locator('main ol > li:has(.place)')).toHaveCount(2);
    await picture('order');
  });

  const { flights } = await (
    await page.request.get(`${office.url}/api/v1/programmes/${programmes[0].id}/results`)
  ).json();
  expect(flights).toHaveLength(2);

  const chief = await (await browser.newContext({ viewport: sizes.across, hasTouch: true })).newPage();
  await test.step('the flights are called on, flown and graded on paper, which is keyed twice', async () => {
    await page.goto(`${office.url}/contests/${office.contest}/devices`);
    await picture('devices');
    await pairByLink(chief, office, 'chief');
    for (const { id, number } of flights.sort(
      (a: { number: number }, b: { number: number }) => a.number - b.number,
    )) {
      await button(chief, `Call flight ${number} on`).click();
      await button(chief, 'In the air').click();
      await button(chief, 'Down').click();
      await page.goto(`${office.url}/flights/${id}/paper`);
      const grades = number === 1 ? ['75', '80'] : ['65', '7'];
      for (let sheet = 0; sheet < 4; sheet++) await read(page, grades);
      await expect(page.getByText('both readings agree', { exact: false })).toBeVisible();
      if (number === 1) await picture('paper');
      // What the chief judge has not heard of, a closing leaves out.
      await expect(chief.getByText(/^Not signed/)).toHaveCount(0);
      await button(chief, new RegExp(`^Close flight ${number}`)).click();
    }
    await expect(chief.getByTitle('About this tablet')).toHaveText('all at the office');
    await chief.screenshot({ path: info.outputPath('chief.png') });
  });

  await test.step('the results are published, and made official', async () => {
    await page.goto(`${office.url}/contests/${office.contest}/office`);
    await picture('office');
    await page.getByRole('link', { name: /every flight is closed/ }).click();
    await button(page, 'Publish as provisional').click();
    await expect(page.getByText('Publication 1 is signed and stands.')).toBeVisible();
    await picture('published');
    await page.getByLabel('official', { exact: true }).check();
    await page.getByLabel('Reason', { exact: true }).fill('Both pilots agreed at once.');
    await button(page, 'Publish as official').click();
    await expect(page.getByText('Publication 2 is signed and stands.')).toBeVisible();
    await page.goto(`${office.url}/contests/${office.contest}/publications`);
    await page
      .getByRole('link', { name: /Official/ })
      .first()
      .click();
    // Ann or Bea, whoever flew first: (7.5 × 10 + 8.0 × 14) against (6.5 × 10 + 7.0 × 14), worked out by hand.
    await expect(page.getByText('187.00')).toBeVisible();
    await expect(page.getByText('163.00')).toBeVisible();
    await picture('official');
  });
  await chief.context().close();
});
