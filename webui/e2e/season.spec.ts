import { randomUUID } from 'node:crypto';
import { expect, test, type Page } from '@playwright/test';
import { demoForAll } from './demo';
import { allHindrances, tooWide } from './hindrances';
import { invitation, officeToken, ownContest, publish, signIn } from './office';

const demo = demoForAll(8104, { HALFPOINT_OFFICE_TOKEN: officeToken });

/** Two contests with the same people, each with a provisional standing. */
async function twoContests(page: Page): Promise<{ id: string; name: string }[]> {
  const contests = [];
  for (const season of ['Spring', 'Autumn']) {
    const { id, name, categories } = await ownContest(page, season, 'sum');
    const [{ id: category, programmes }] = categories;
    await publish(page, `programmes/${programmes[0].id}`);
    await publish(page, `categories/${category}`);
    contests.push({ id, name });
  }
  return contests;
}

async function clean(page: Page): Promise<void> {
  expect(await allHindrances(page)).toEqual([]);
  await expect.poll(() => tooWide(page)).toBeLessThanOrEqual(0);
}

test('a season is made of two contests, and a pilot is one person when that is confirmed', async ({
  page,
  browser,
}) => {
  test.setTimeout(180_000);
  const contests = await twoContests(page);
  for (const [i, { id }] of contests.entries()) {
    if (i === 0) await signIn(page, 'director', id);
    else {
      const { link } = await invitation(page, 'director', id);
      const accepted = await page.request.post('/api/v1/invitations/acceptance', {
        headers: { Origin: demo.url }, // as a page sends it with the session
        data: { link },
      });
      expect(accepted.status(), await accepted.text()).toBe(201);
    }
  }
  await page.goto('/');
  await page.getByRole('link', { name: 'Seasons over several contests' }).click();
  const name = `Northern League ${randomUUID().slice(0, 8)}`;
  await page.getByLabel('Its name').fill(name);
  await page.getByRole('button', { name: 'Make a season' }).click();

  // Its contests and rules.
  await expect(page.getByRole('heading', { level: 1, name: `${name}: rules and contests` })).toBeVisible();
  const adding = page.getByRole('group', { name: 'Add it' });
  for (const contest of contests) {
    await adding.getByLabel('Contest').selectOption({ label: contest.name });
    const category = adding.getByLabel('Category');
    await expect(category.getByRole('option')).toHaveCount(2);
    await category.selectOption({ index: 1 });
    await adding.getByRole('button', { name: 'Add it' }).click();
    await expect(page.getByRole('button', { name: new RegExp(`^Take out.*${contest.name}`) })).toBeVisible();
  }
  await page.getByLabel('By place: only the order counts').check();
  await page.getByLabel('Points of place 1, 2 and so on').fill('25 18 19');
  await page.getByRole('button', { name: 'Save it' }).click();
  await expect(page.getByText('is more than the place before gets')).toBeVisible();
  await page.getByLabel('Points of place 1, 2 and so on').fill('25 18 15');
  await page.getByRole('button', { name: 'Save it' }).click();
  await expect(page.getByText('Saved.')).toBeVisible();
  await clean(page);

  // Nobody is two pilots before it is said.
  await page.getByRole('link', { name }).click();
  await expect(page.getByRole('cell', { name: '25.00', exact: true }).first()).toBeVisible();
  await page.getByRole('link', { name: 'Who is who' }).click();
  await page.getByRole('button', { name: /^Confirm all/ }).click();
  await expect(page.getByText('Saved.')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Take apart/ }).first()).toBeVisible();
  await clean(page);

  // Anyone reads it, and takes it along.
  const path = new URL(page.url()).pathname.replace('/people', '');
  const spectator = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  await spectator.goto(path);
  await expect(spectator.getByRole('cell', { name: '50.00', exact: true })).toBeVisible();
  await expect(spectator.getByText('By place: 25, 18, 15 points')).toBeVisible();
  await clean(spectator);
  const download = spectator.waitForEvent('download');
  await spectator.getByRole('button', { name: 'Save as CSV' }).click();
  expect((await download).suggestedFilename()).toMatch(/^northern-league-.*\.csv$/);

  // Deleted, it is nowhere; its contests stay.
  await page.goto(`${path}/setup`);
  await page.getByRole('button', { name: 'Delete this season' }).click();
  await clean(page);
  await page.getByRole('button', { name: 'Delete it for good' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Seasons' })).toBeVisible();
  await expect(page.getByRole('link', { name })).toHaveCount(0);
  expect((await page.request.get(`/api/v1${path}`)).status()).toBe(404);
  expect((await page.request.get(`/api/v1/contests/${contests[0]?.id}`)).status()).toBe(200);
});
