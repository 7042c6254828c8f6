import { randomUUID } from 'node:crypto';
import { expect, test, type Browser, type Page } from '@playwright/test';
import { read } from './demo';
import { allHindrances, tooWide } from './hindrances';
import { asOwner as headers, signIn, type Person } from './office';

/** An empty contest of one test's own, made by the owner. */
async function contest(page: Page, name = `Lind ${randomUUID()}`): Promise<string> {
  const made = await page.request.post('/api/v1/contests', { headers, data: { name, place: 'Lindholm' } });
  expect(made.status()).toBe(201);
  return (await made.json()).id;
}

/** Signs somebody in on the page for them, as the office of a contest. */
async function arrive(page: Page, id: string): Promise<Person> {
  const person = await signIn(page, 'office', id);
  await page.context().clearCookies();
  await page.goto(`/sign-in?to=${encodeURIComponent(`/contests/${id}/setup`)}`);
  await page.getByLabel('E-mail address').fill(person.email);
  await page.getByLabel('Password', { exact: true }).fill(person.password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page).toHaveURL(`/contests/${id}/setup`);
  return person;
}

/** Somebody else of the office, in a browser of their own. */
async function another(browser: Browser, id: string): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await signIn(page, 'office', id);
  return page;
}

const open = async (page: Page, id: string, name: string) => {
  await page.goto(`/contests/${id}/setup/${name}`);
  await expect(page.getByRole('button', { name: 'Save' })).toBeVisible();
};
const to = async (page: Page, name: string, heading = name) => {
  await page.getByRole('navigation', { name: 'Pages of the set-up' }).getByRole('link', { name }).click();
  await expect(page.getByRole('heading', { level: 1, name: heading })).toBeVisible();
};
const save = async (page: Page) => {
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('Saved.', { exact: true })).toBeVisible();
};
const last = (page: Page) => page.locator('[data-row]').last();

const titles = 'name;affiliation;category;ranked;team';
/** Ten rows, each with one thing wrong. */
const wrongRows = [
  ';Hill;;;',
  'Ann Ash;;nowhere;;',
  'Bea Birch;;Meadow;perhaps;',
  'Cleo Cedar;;;;Reds',
  'Dai Elm;;;no;',
  `Eve Fir;${'x'.repeat(201)};;;`,
  'Fay Gum;;;;;beyond',
  'Gus "the" Hazel;;;;',
  ';;Ridge;;',
  'Ira Juniper;;Summit;;',
];

test('a contest is set up from signing in to its panels', async ({ page }) => {
  const id = await contest(page);
  await arrive(page, id);

  await to(page, 'Categories');
  for (const name of ['Meadow', 'Ridge']) {
    await page.getByRole('button', { name: 'Add a category' }).click();
    await last(page).getByLabel('Name', { exact: true }).fill(name);
    await last(page).getByLabel('Name', { exact: true }).blur();
    await expect(last(page).getByLabel('Code')).toHaveValue(name.toLowerCase());
  }
  await save(page);

  await to(page, 'Programmes');
  for (const category of ['Meadow', 'Ridge']) {
    await page.getByRole('button', { name: `Add a programme: ${category}` }).click();
  }
  await expect(page.locator('[data-row]')).toHaveCount(2);
  await page.locator('[data-row]').first().getByLabel('Name', { exact: true }).fill('Known');
  await last(page).getByLabel('Name', { exact: true }).fill('Free');
  await last(page).getByLabel(/^Kind/).selectOption('free');
  await last(page)
    .getByLabel(/^Method/)
    .selectOption('trimmed-mean');
  await last(page).getByText('Parameters and zeros').click();
  await last(page).getByLabel('Grades left out at each end').fill('2');
  await save(page);

  await to(page, 'Pilots');
  const paste = page.getByLabel('or paste the table here');
  await paste.fill([titles, ...wrongRows].join('\n'));
  await page.getByRole('button', { name: 'Read it' }).click();
  await expect(page.getByText('Nothing was taken: 10 places are wrong.')).toBeVisible();
  await expect(page.getByText(/^row 4, column 4: "perhaps" is neither yes nor no/)).toBeVisible();
  await expect(page.getByRole('alert').getByRole('listitem')).toHaveCount(10);
  await paste.fill(
    `\ufeff${titles}\nAnn Ash;Hill;Meadow;yes;Reds\nAnn Ash;;Ridge;no;\nBea Birch;Vale;Ridge;;\n`,
  );
  await page.getByRole('button', { name: 'Read it' }).click();
  await expect(
    page.getByText('3 rows read: 2 people new, 0 changed, and 3 entries new or changed.', { exact: false }),
  ).toBeVisible();
  await save(page);
  const table = await page.request.get(`/api/v1/contests/${id}/pilots`);
  expect(await table.text()).toContain('ann-ash,Ann Ash,Hill,,,ridge,no,\n');

  await to(page, 'Judges');
  for (const name of ['Kim Oak', 'Lee Pine']) {
    await page.getByRole('button', { name: 'Add a judge' }).click();
    await last(page).getByLabel('Name', { exact: true }).fill(name);
    await last(page).getByLabel('Club or country').fill('Hill');
  }
  await save(page);

  await to(page, 'Panels');
  const panel = page.getByRole('listitem', { name: 'Known' });
  await panel.getByLabel('Add a seat').selectOption('Lee Pine');
  await panel.getByLabel('Add a seat').selectOption('Kim Oak');
  await expect(panel.getByText('Lee Pine (Hill): Ann Ash')).toBeVisible();
  await save(page);

  await to(page, 'Contest', 'Set-up');
  await expect(page.getByText('2 programmes, 1 without a panel')).toBeVisible();
  const { programmes } = await read(page, `contests/${id}/setup`);
  expect(programmes.map((one: { panel: object[] }) => one.panel.length).sort()).toEqual([0, 2]);
  expect(programmes.find((one: { name: string }) => one.name === 'Free').method).toMatchObject({
    name: 'trimmed-mean',
    trim: 2,
  });
});

const row = (fields: object) => ({ id: randomUUID(), revision: 0, position: 1, ...fields });

/** A contest with one pilot, in no category, and one programme. */
async function withPilot(page: Page): Promise<string> {
  const id = await contest(page);
  const combine = { by: 'weighted-percent', weights: { known: 1 }, tie_break: [], team_best: 3 };
  const method = {
    name: 'consensus',
    trim: 1,
    discard: 1.645,
    style: true,
    seat_weights: 'measured',
    outlier: 6,
    lean: 2,
    group_min: 11,
    hard_zero_majority: 'more-than-half',
    perception_zero: 'majority',
  };
  const category = row({ code: 'meadow', name: 'Meadow', combine });
  const known = {
    category: category.id,
    code: 'known',
    name: 'Known',
    kind: 'known',
    cut: 0,
    method,
    panel: [],
  };
  const data = {
    pilots: [row({ code: 'ann', name: 'Ann Ash', affiliation: '', aircraft: '', note: '' })],
    categories: [category],
    programmes: [row(known)],
  };
  const put = await page.request.patch(`/api/v1/contests/${id}/setup`, { headers, data });
  expect(put.ok()).toBe(true);
  return id;
}

test('of two people who change the same row neither overwrites the other', async ({ page, browser }) => {
  const id = await withPilot(page);
  await signIn(page, 'office', id);
  // The news of the other's change come too late.
  await page.route('**/events', (route) => route.abort());
  await open(page, id, 'pilots');
  const theirs = await another(browser, id);
  await open(theirs, id, 'pilots');

  await page.getByLabel('Name').fill('Ann Aspen');
  await page.getByLabel('Aircraft').fill('Swift');
  await theirs.getByLabel('Name').fill('Ann Alder');
  await theirs.getByLabel('Club or country').fill('Hill');
  await save(theirs);

  const refused = page.waitForResponse((answer) => answer.request().method() === 'PATCH');
  await page.getByRole('button', { name: 'Save' }).click();
  expect((await refused).status()).toBe(409);
  await expect(page.getByText('Somebody else made it “Ann Alder” meanwhile.')).toBeVisible();
  await expect(page.getByText('Yours is “Ann Aspen”.')).toBeVisible();
  await expect(page.getByLabel('Club or country')).toHaveValue('Hill');
  await page.getByRole('button', { name: 'Take “Ann Alder”' }).click();
  await save(page);
  // What one has saved the other sees without a reload.
  await expect(theirs.getByLabel('Aircraft')).toHaveValue('Swift');
  await expect(theirs.getByLabel('Name')).toHaveValue('Ann Alder');
  await theirs.context().close();
});

test('what is typed outlives the network and the page', async ({ page, context }) => {
  const id = await withPilot(page);
  await signIn(page, 'office', id);
  await open(page, id, 'pilots');
  await page.getByLabel('Name').fill('Ann Aspen');
  await context.setOffline(true);
  await page.getByLabel('Aircraft').fill('Swift');
  await page.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByText('What you typed is kept on this device', { exact: false })).toBeVisible();
  await expect(page.getByLabel('Aircraft')).toHaveValue('Swift');

  await context.setOffline(false);
  await page.reload();
  await expect(page.getByText('in the fields again', { exact: false })).toBeVisible();
  await expect(page.getByLabel('Name')).toHaveValue('Ann Aspen');
  await save(page);
  const { pilots } = await read(page, `contests/${id}/setup`);
  expect(pilots[0]).toMatchObject({ name: 'Ann Aspen', aircraft: 'Swift', revision: 2 });
});

test('the owner makes a contest like another one', async ({ page }) => {
  const from = await withPilot(page);
  await page.setExtraHTTPHeaders(headers);
  await page.goto(`/contests/new?from=${from}`);
  await expect(page.getByLabel('Set it up as')).toHaveValue(from);
  await page.getByLabel('Name').fill('Next Cup');
  await page.getByLabel('First day').fill('2027-06-12');
  await page.getByLabel('Last day').fill('2027-06-11');
  await page.getByLabel('with its pilots and their entries').check();
  await page.getByRole('button', { name: 'Make the contest' }).click();
  await expect(page.getByText('2027-06-11 is before it starts', { exact: false })).toBeVisible();
  await page.getByLabel('Last day').fill('2027-06-14');
  await page.getByRole('button', { name: 'Make the contest' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Set-up' })).toBeVisible();
  await expect(page.getByText('1 pilot, 1 in no category')).toBeVisible();
});

test('nothing hinders a reader of the set-up, in any theme', async ({ page }) => {
  const id = await withPilot(page);
  await signIn(page, 'office', id);
  await page.setViewportSize({ width: 390, height: 844 });
  for (const [name, theme] of [
    ['pilots', 'light'],
    ['programmes', 'dark'],
    ['categories', 'sun'],
  ] as const) {
    await open(page, id, name);
    await expect(page.locator('[data-row]').first()).toBeVisible();
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme);
    expect(await tooWide(page), name).toBeLessThanOrEqual(0);
    expect(await allHindrances(page), `${theme} ${name}`).toEqual([]);
  }
});
