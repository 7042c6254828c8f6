import { expect, test, type Locator, type Page } from '@playwright/test';
import { demoContest, read } from './demo';
import { hindrances, paleInOtherThemes } from './hindrances';
import { asOwner as headers, signIn } from './office';

// A tablet, as a pilot or the office holds it.
test.use({ viewport: { width: 1180, height: 820 }, hasTouch: true });

interface Place {
  contest: string;
  category: string;
  programme: string;
  /** The last flights of the programme, which nobody judges while the tests run. */
  flights: { id: string; pilot: { name: string } }[];
}

/** The free programme of the contest's last category. */
async function free(page: Page): Promise<Place> {
  const contest = await demoContest(page);
  const { categories } = await read(page, `contests/${contest}`, headers);
  const category = categories.at(-1);
  const programme = category.programmes.find((one: { kind: string }) => one.kind === 'free').id;
  const { sequences } = await read(page, `programmes/${programme}/sequences`, headers);
  const flights = sequences.map((one: { flight: object }) => one.flight).reverse();
  return { contest, category: category.id, programme, flights };
}

async function open(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
}

/** Opens an address as the office. */
async function enter(page: Page, path: string): Promise<void> {
  await signIn(page);
  await open(page, path);
}

const strip = (page: Page) => page.getByRole('group', { name: 'Figures in flying order' });
const tiles = (page: Page) => strip(page).locator('[aria-pressed]');
const drawing = (page: Page) => page.locator('.drawing svg');

async function tap(within: Page | Locator, ...names: (string | RegExp)[]): Promise<void> {
  for (const name of names) {
    await within.getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) }).tap();
  }
}

/** Inserts a figure and builds it by tapping its keys; `called` is the name it must come to. */
async function build(page: Page, k: string, called: string, ...keys: string[]): Promise<void> {
  await tap(page, 'Insert a figure');
  await tap(page.getByRole('group', { name: 'Keys for moves' }), ...keys);
  await page.getByLabel('K of the figure').fill(k);
  await expect(page.getByRole('heading', { level: 2, name: called })).toBeVisible();
}

const five: [k: string, called: string, ...keys: string[]][] = [
  ['14', 'Half Cuban eight', 'Pull 225°', 'Roll ½', 'Pull 45°'],
  ['21', 'Hammerhead', 'Pull 90°', 'Roll ¼', 'Stall turn right', 'Roll ¾', 'Pull 90°'],
  ['10', 'Loop', 'Pull 360°'],
  ['13.5', 'Spin', 'Spin 1 right', 'Pull 90°'],
  ['8', 'Level line', 'Roll 1'],
];

test('a free sequence is built with buttons, registered, and signed off over an error for a reason', async ({
  page,
}) => {
  const { category, flights } = await free(page);
  const none = await page.request.put(`/api/v1/categories/${category}/limits`, {
    headers,
    data: { limits: {}, note: '' },
  });
  expect(none.ok()).toBe(true);
  await enter(page, `/categories/${category}/limits`);
  await page.getByLabel('Most figures').fill('4');
  await tap(page, 'Set these limits');
  await expect(page.getByText('Set. Every sequence', { exact: false })).toBeVisible();

  const { items } = await read(page, `flights/${flights[0]?.id}/sequence`, headers);
  await page.goto(`/flights/${flights[0]?.id}/sequence`);
  for (let left: number = items.length; left > 0; left--) {
    await expect(tiles(page)).toHaveCount(left);
    await tiles(page).first().focus();
    await page.keyboard.press('Delete');
  }
  await expect(page.getByText('No figure yet')).toBeVisible();

  await tap(page, 'Insert a figure', 'Pull 225°');
  await expect(tiles(page).first()).toContainText('1 error');
  await expect(drawing(page)).toBeVisible();
  await tap(page, 'Roll ½', 'Pull 45°');
  await expect(tiles(page).first()).not.toContainText('error');
  await expect(page.locator('.call')).toContainText('on the forty-five down half roll');
  await page.getByLabel('K of the figure').fill('14');
  for (const figure of five.slice(1)) await build(page, ...figure);
  await expect(page.getByText('66.5')).toBeVisible();
  await expect(page.locator('.found')).toContainText('at most 4');

  await page.getByRole('button', { name: 'Register' }).first().tap();
  await expect(page.getByText('It is what you see.', { exact: false })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Sign off' })).toBeDisabled();
  await page
    .getByLabel('Why it is accepted although errors stand')
    .fill('Five figures agreed at the briefing');
  await tap(page, 'Sign off');
  await expect(page.getByText('“Five figures agreed at the briefing”', { exact: false })).toBeVisible();

  await page.goto('/office');
  const row = page.getByRole('row', { name: flights[0]?.pilot.name ?? '' }).last();
  await expect(row).toContainText('1 error');
  await expect(row).not.toContainText('not signed off');
});

test('a draft outlives the page, and every step can be taken back and done again', async ({ page }) => {
  await page.goto('/sequence');
  await build(page, ...(five[0] as (typeof five)[0]));
  await expect(page.getByText('Kept in this browser', { exact: false })).toBeVisible();
  await page.reload();
  await expect(page.getByText('It was found on this device', { exact: false })).toBeVisible();
  await expect(page.getByLabel('K of the figure')).toHaveValue('14');
  await expect(page.getByRole('heading', { level: 2, name: 'Half Cuban eight' })).toBeVisible();

  await tap(page, 'Duplicate');
  await expect(tiles(page)).toHaveCount(2);
  await tap(page, 'Undo');
  await expect(tiles(page)).toHaveCount(1);
  await tap(page, 'Redo');
  await expect(tiles(page)).toHaveCount(2);
});

test('what somebody else registered meanwhile is shown before anything is written over', async ({ page }) => {
  const { flights } = await free(page);
  const id = flights[1]?.id ?? '';
  await enter(page, `/flights/${id}/sequence`);
  await page.getByLabel('K of the figure').fill('19.5');
  const theirs = await read(page, `flights/${id}/sequence`, headers);
  const { items, entry, digest, revision } = theirs;
  const change = { items: items.slice(0, -1), entry, replaces: digest, revision };
  await page.request.put(`/api/v1/flights/${id}/sequence`, { headers, data: change });

  await page.getByRole('button', { name: 'Register' }).first().tap();
  const asked = page.getByRole('alertdialog');
  await expect(asked).toContainText('Nothing was overwritten');
  await expect(asked).toContainText('K 19.5');
  await tap(asked, 'Register yours instead');
  await expect(asked).toBeHidden();
  await expect(page.getByText('It is what you see.', { exact: false })).toBeVisible();
});

test('a figure is built, moved and put in order with keys alone', async ({ page }) => {
  await page.goto('/sequence');
  const press = async (...keys: string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  await page.getByRole('button', { name: 'Insert a figure' }).focus();
  await press('Enter');
  // The palette is one stop: on the second row, ½ is the second key; the third row down from there pulls.
  await page.getByRole('group', { name: 'Keys for moves' }).getByRole('button').first().focus();
  await press(
    'ArrowDown',
    'ArrowDown',
    'ArrowDown',
    'ArrowRight',
    'ArrowRight',
    'ArrowRight',
    'ArrowRight',
    'Enter',
  );
  await expect(page.getByRole('button', { name: 'Move 1: Pull 225°' })).toBeVisible();
  await press('ArrowUp', 'ArrowUp', 'ArrowLeft', 'ArrowLeft', 'ArrowLeft', 'Enter');
  await press('ArrowDown', 'ArrowDown', 'ArrowLeft', 'Enter');
  await expect(page.getByRole('heading', { level: 2, name: 'Half Cuban eight' })).toBeVisible();

  await page.getByRole('button', { name: 'Insert a figure' }).focus();
  await press('Enter');
  await tiles(page).nth(1).focus();
  await press('Alt+ArrowLeft');
  await expect(tiles(page).nth(1)).toContainText('Half Cuban eight');
  await press('Delete');
  await expect(tiles(page)).toHaveCount(1);
  await press('Control+z');
  await expect(tiles(page)).toHaveCount(2);
});

test('on paper stands the sequence and nothing to tap', async ({ page }, info) => {
  const { flights } = await free(page);
  await enter(page, `/flights/${flights[2]?.id}/sequence`);
  await expect(drawing(page)).toBeVisible();
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 718, height: 1000 });
  await expect(page.getByRole('button')).toHaveCount(0);
  await expect(page.getByText('Nothing here says whether', { exact: false })).toBeVisible();
  await expect(page.locator('ol li svg').first()).toBeVisible();
  await page.screenshot({ path: info.outputPath('paper.png'), fullPage: true });
});

test('nothing hinders a reader of the editor, in any theme', async ({ page }) => {
  const { flights } = await free(page);
  await enter(page, `/flights/${flights[1]?.id}/sequence`);
  await expect(drawing(page)).toBeVisible();
  await tiles(page).nth(1).tap();
  await page.getByRole('button', { name: /^Move 1/ }).tap();
  await expect(page.getByRole('button', { name: /^Move 1/ })).toHaveAttribute('aria-pressed', 'true');
  expect(await hindrances(page)).toEqual([]);
  expect(await paleInOtherThemes(page)).toEqual([]);
});

test('nothing hinders a reader of the office and its forms', async ({ page }) => {
  const { contest, category } = await free(page);
  await enter(page, '/office');
  await expect(page.getByRole('table').first()).toBeVisible();
  expect(await hindrances(page)).toEqual([]);
  for (const path of [`/categories/${category}/limits`, `/contests/${contest}/numbers`]) {
    await open(page, path);
    expect(await hindrances(page), path).toEqual([]);
  }
});
