import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, test, type Browser, type Page } from '@playwright/test';
import { read } from './demo';
import { hindrances } from './hindrances';
import { asOwner, ownContest, signIn } from './office';

const run = promisify(execFile);
const program = process.env.HALFPOINT_PROGRAM ?? '../bin/halfpoint';

interface Copied {
  contest: string;
  programme: string;
  /** Of the first flight. */
  pilot: { id: string; name: string };
}

/** A contest of the test's own. */
async function copied(page: Page): Promise<Copied> {
  const { id: contest, categories } = await ownContest(page, 'Published');
  const programme = categories[0].programmes[0].id;
  const { flights } = await read(page, `programmes/${programme}/results`, asOwner);
  return { contest, programme, pilot: flights[0].pilot };
}

/** A page of somebody new with a role in the contest. */
async function as(browser: Browser, { contest, pilot }: Copied, role: 'director' | 'pilot'): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await signIn(page, role, contest, role === 'pilot' ? { pilot: pilot.id } : {});
  return page;
}

async function open(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
}

test('results are published, read, protested, decided on, corrected and verified', async ({
  page,
  browser,
}, info) => {
  test.slow(); // a whole day of a contest, by three people
  const own = await copied(page);
  const director = await as(browser, own, 'director');
  const spectator = page;

  // What needs the director leads to publishing.
  await open(director, `/contests/${own.contest}/office`);
  await director.getByRole('link', { name: /every flight is closed/ }).click();
  await expect(director.getByText('Nothing keeps it from being published.')).toBeVisible();
  await director.getByLabel('Time for protests, in minutes').fill('30');
  await director.getByRole('button', { name: 'Publish as provisional' }).click();
  await expect(director.getByText('Publication 1 is signed and stands.')).toBeVisible();

  // Anyone reads it, without a session.
  await open(spectator, `/contests/${own.contest}/publications`);
  await spectator.getByRole('link', { name: /Provisional/ }).click();
  await expect(spectator.getByText('Provisional', { exact: true })).toBeVisible();
  await expect(spectator.getByRole('link', { name: own.pilot.name })).toBeVisible();
  const first = spectator.url();

  // A pilot protests with the own session.
  const pilot = await as(browser, own, 'pilot');
  await open(pilot, `/programmes/${own.programme}/protests`);
  await pilot.getByLabel('What is protested, and why').fill('Figure 2 was flown as drawn.');
  await pilot.getByRole('button', { name: 'File the protest' }).click();
  await expect(pilot.getByText('Figure 2 was flown as drawn.', { exact: true })).toBeVisible();

  // It keeps the results from becoming official, until the director decides.
  await director.getByLabel('official', { exact: true }).check();
  await expect(director.getByText(/the protest of .* is open/)).toBeVisible();
  await open(director, `/contests/${own.contest}/office`);
  await director.getByRole('link', { name: /waits for a decision/ }).click();
  await director.getByLabel('Not upheld').check();
  await director.getByLabel('The decision in words').fill('The film shows otherwise.');
  await director.getByRole('button', { name: 'Decide' }).click();
  await expect(director.getByText('not upheld', { exact: true })).toBeVisible();

  // Official before the time is over, for a reason, with the password again.
  await open(director, `/programmes/${own.programme}/publish`);
  await director.getByLabel('official', { exact: true }).check();
  await expect(director.getByText(/the time for protests runs until/)).toBeVisible();
  await director.getByLabel('Reason', { exact: true }).fill('All pilots agreed.');
  await director.getByRole('button', { name: 'Publish as official' }).click();
  await expect(director.getByText('Publication 2 is signed and stands.')).toBeVisible();

  // A correction says what it changed: the programme does not count.
  await director.getByText('Decide', { exact: true }).first().click();
  await director.getByLabel('It does not count', { exact: true }).check();
  await director.getByLabel('Why').fill('The cloud base sank.');
  await director.getByRole('button', { name: 'Decide' }).click();
  await expect(director.getByText('It does not count towards the overall standing.')).toBeVisible();
  await director.getByLabel('Reason', { exact: true }).fill('Corrected: it does not count.');
  await director.getByRole('button', { name: 'Publish as official' }).click();
  await expect(director.getByText('Publication 3 is signed and stands.')).toBeVisible();

  // The first one stands at its address as it was, and leads to the last.
  await open(spectator, first);
  await spectator.getByRole('link', { name: /Publication 3, official/ }).click();
  await expect(spectator.getByRole('cell', { name: 'counts' })).toBeVisible();
  await expect(spectator.getByLabel('Compared with').getByRole('option')).toHaveCount(2);
  await spectator.getByRole('button', { name: 'Check in this browser' }).click();
  await expect(spectator.getByText('Everything that was checked agrees.')).toBeVisible();
  expect(await hindrances(spectator)).toEqual([]);

  // The program verifies it, by its address and by its file.
  const key = (await read(page, 'keys')).keys[0].id;
  const saving = spectator.waitForEvent('download');
  await spectator.getByRole('link', { name: /to be verified/ }).click();
  const file = info.outputPath('publication.zip');
  await (await saving).saveAs(file);
  for (const place of [spectator.url(), file]) {
    const { stdout } = await run(program, ['verify', place, '--key', key]);
    expect(stdout).toContain('Everything agrees.');
  }
  for (const page of [director, pilot]) await page.context().close();
});

test('nothing stands in the way of whoever publishes', async ({ page, browser }) => {
  const own = await copied(page);
  const director = await as(browser, own, 'director');
  for (const path of [`/contests/${own.contest}/office`, `/programmes/${own.programme}/publish`]) {
    await open(director, path);
    await expect(director.getByText('live', { exact: true })).toBeVisible();
    expect(await hindrances(director), path).toEqual([]);
  }
  await director.context().close();
});
