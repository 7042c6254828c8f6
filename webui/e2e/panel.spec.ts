import { randomUUID } from 'node:crypto';
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Browser, type Page } from '@playwright/test';
import { Demo, demoContest } from './demo';
import { officeToken } from './office';

const demo = new Demo(8104, { HALFPOINT_OFFICE_TOKEN: officeToken });
test.use({ baseURL: demo.url });
test.beforeAll(async () => {
  test.setTimeout(120_000);
  await demo.start();
});
test.afterAll(() => demo.stop());

const headers = { Authorization: `Bearer ${officeToken}` };

interface Flown {
  contest: string;
  programme: string;
  judges: { id: string; name: string }[];
}

/** A contest of the test's own: one programme of the demonstration's, all flown. */
async function flown(page: Page): Promise<Flown> {
  const get = async (path: string) => (await page.request.get(path, { headers })).json();
  const bundle = await get(`/api/v1/contests/${await demoContest(page)}/bundle`);
  bundle.contest.name = `Judged ${randomUUID().slice(0, 8)}`;
  bundle.categories = bundle.categories.slice(0, 1);
  bundle.categories[0].programmes = bundle.categories[0].programmes.slice(0, 1);
  bundle.categories[0].combine = { by: 'sum-percent' };
  const made = await page.request.post('/api/v1/bundles?opened=published', { headers, data: bundle });
  expect(made.status(), await made.text()).toBe(201);
  const { id: contest, categories } = await made.json();
  const programme = categories[0].programmes[0].id;
  const { panel } = await get(`/api/v1/programmes/${programme}`);
  return { contest, programme, judges: panel.map(({ judge }: { judge: Flown['judges'][number] }) => judge) };
}

/** A page of somebody new with a role; what it says of the content policy fails the test. */
async function as(browser: Browser, contest: string, role: string, judge = ''): Promise<Page> {
  const context = await browser.newContext();
  const made = await context.request.post(`/api/v1/contests/${contest}/invitations`, {
    headers,
    data: { role, ...(judge ? { judge } : {}) },
  });
  expect(made.status(), await made.text()).toBe(201);
  const account = {
    email: `${randomUUID()}@example.org`,
    name: 'Vera Lind',
    password: 'a crow on every fence post',
  };
  const data = { link: (await made.json()).link, account };
  expect((await context.request.post('/api/v1/invitations/acceptance', { data })).status()).toBe(201);
  await context.addInitScript(() => localStorage.setItem('halfpoint.name', 'Vera Lind'));
  const page = await context.newPage();
  page.on('console', (message) => expect(message.text()).not.toContain('Content Security Policy'));
  return page;
}

async function clean(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

test('a judge reads the own analysis when results are published, everyone all when the director says so', async ({
  page,
  browser,
}) => {
  test.setTimeout(180_000);
  const { contest, programme, judges } = await flown(page);
  const [own, other] = judges as [Flown['judges'][number], Flown['judges'][number]];
  const director = await as(browser, contest, 'director');
  const judge = await as(browser, contest, 'judge', own.id);

  // Before results are published the judge waits, and the director reads.
  await judge.goto(`/contests/${contest}/analyses`);
  await expect(judge.getByText('Your own analysis comes when results are published')).toBeVisible();
  await director.goto(`/contests/${contest}/analyses`);
  await director.getByRole('link', { name: 'The panel' }).click();
  await expect(director.getByRole('img', { name: 'Largest change of rank without each seat' })).toBeVisible();
  await expect(director.getByText('It can be published when results of the programme are.')).toBeVisible();
  await director.getByLabel('Which judge').selectOption({ index: 1 });
  await expect(director.getByRole('table', { name: `${other.name} against the panel` })).toBeVisible();
  await clean(director);

  // A picture has its numbers beside it, by the keyboard alone.
  const summary = director.getByText('As a table: Shift');
  await summary.focus();
  await director.keyboard.press('Enter');
  await expect(director.getByRole('rowheader', { name: `Seat 1, ${own.name}` })).toBeVisible();

  // With results the judge reads the own, and no other's.
  const published = await page.request.post(`/api/v1/programmes/${programme}/publications`, {
    headers,
    data: { state: 'provisional' },
  });
  expect(published.status(), await published.text()).toBe(200);
  await judge.reload();
  await judge.getByRole('link', { name: 'Your own analysis' }).click();
  await expect(judge.getByRole('heading', { name: `${own.name} against the panel` })).toBeVisible();
  await expect(judge.getByRole('img', { name: 'How often each grade was given' })).toBeVisible();
  await expect(judge.getByText('Only you, the director, the office and the jury see this.')).toBeVisible();
  await clean(judge);
  await judge.goto(`/programmes/${programme}/judge?judge=${other.id}`);
  await expect(judge.getByRole('alert')).toBeVisible();
  await page.goto(`/programmes/${programme}/analysis`);
  await expect(page.getByRole('alert')).toBeVisible();

  // The director publishes it, for good.
  await director.reload();
  await director.getByLabel('The judges know, and I publish it for good').check();
  await director.getByRole('button', { name: 'Publish it for good' }).click();
  await expect(director.getByText('Everyone who sees the contest sees this since')).toBeVisible();
  await page.reload();
  await expect(page.getByRole('heading', { name: 'Each judge against the panel' })).toBeVisible();
});

for (const theme of ['light', 'dark', 'sun']) {
  test(`the panel's pictures fit a phone, in ${theme}`, async ({ page, browser }) => {
    const contest = await demoContest(page);
    const director = await as(browser, contest, 'director');
    await director.setViewportSize({ width: 390, height: 844 });
    await director.addInitScript((theme) => localStorage.setItem('halfpoint.theme', theme), theme);
    await director.goto(`/contests/${contest}/analyses`);
    await director.getByRole('link', { name: 'The panel' }).first().click();
    // The first analysis of a version is computed when it is asked for.
    await expect(director.getByRole('img', { name: 'Shift' })).toBeVisible({ timeout: 30_000 });
    const over = () => director.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    await expect.poll(over).toBeLessThanOrEqual(0);
    await clean(director);
  });
}
