import { readFileSync } from 'node:fs';
import { expect, test, type Browser, type Page } from '@playwright/test';
import { hindrances } from './hindrances';
import { grade, officeForAll, paired, tap } from './line';

let pilots: { id: string; name: string }[];

/** A loop, a roll in steps and a turn, for the first three figures of an invented contest with one judge. */
const moves = [[{ arc: 360 }], [{ line: [{ kind: 'roll', turns: 1, points: 4 }] }], [{ turn: 180 }]];

const office = officeForAll(8102, (office) =>
  office.setUp((programme, bundle) => {
    programme.panel = programme.panel.slice(0, 1);
    programme.method = { name: 'mean' };
    moves.forEach((figure, i) => (programme.sequence.items[i].moves = figure));
    pilots = programme.flights.map(({ pilot }: { pilot: string }) =>
      bundle.pilots.find(({ id }: { id: string }) => id === pilot),
    );
  }),
);

test('the announcer tells who flies, what comes next and what it takes, and no grade', async ({
  browser,
}) => {
  test.setTimeout(180_000);
  const [seat] = await office.judges();
  const setup = await office.ask<{ pilots: { name: string; id: string }[] }>(
    `contests/${office.contest}/setup`,
  );
  const flier = setup.pilots.find(({ name }) => name === pilots[0]?.name);
  const note = 'Flew gliders first, and built this aeroplane in a barn.';
  await office.ask(`contests/${office.contest}/setup`, { pilots: [{ ...flier, note }] }, 'PATCH');

  const stranger = await fetch(`${office.url}/api/v1/contests/${office.contest}/announcer`);
  expect(stranger.status).toBe(401);
  const announcer = await paired(browser, office, 'announcer');
  await expect(announcer.getByText('Nobody is on the line')).toBeVisible();
  const chief = await paired(browser, office, 'chief');
  await tap(chief, 'Call flight 1 on');
  await expect(announcer.getByRole('heading', { name: pilots[0]?.name ?? '' })).toBeVisible();
  await expect(announcer.getByText(note)).toBeVisible();
  await expect(announcer.getByText(/^A loop, all the way round\./)).toBeVisible();
  await expect(
    announcer.getByText(/^A straight line at one height, with a roll in four steps\./),
  ).toBeVisible();
  await expect(announcer.getByText(/flown safely/)).toBeVisible();
  await expect(announcer.getByText('any score is enough for now')).toHaveCount(2);
  await tap(chief, 'In the air');
  await expect(announcer.getByRole('timer')).toBeVisible();

  const judge = await paired(browser, office, 'judge', seat?.id);
  await grade(judge, ['7.5']);
  await expect(announcer.getByRole('heading', { name: /^Now: 2 of/ })).toBeVisible();
  await expect(announcer.getByText('7.5')).toHaveCount(0);
  await announcer.keyboard.press('ArrowRight');
  await expect(announcer.getByRole('heading', { name: /^Now: 3 of/ })).toBeVisible();
  await expect(announcer.getByText(/^A turn through half a circle\./)).toBeVisible();
  await announcer.keyboard.press('Home');
  await expect(announcer.getByRole('heading', { name: /^Now: 2 of/ })).toBeVisible();
  expect(await hindrances(announcer)).toEqual([]);

  await grade(judge, ['8.0', '7.0', '6.5', '8.5', '9.0', '7.0', '8.5']);
  await tap(judge, 'Sign flight 1');
  await tap(chief, 'Down');
  await expect(chief.getByRole('button', { name: /^Seat 1/ })).toContainText('signed');
  await chief.getByRole('button', { name: /^Close flight 1/ }).click();
  await tap(chief, 'Call flight 2 on');
  await expect(announcer.getByRole('heading', { name: pilots[1]?.name ?? '' })).toBeVisible();
  await expect(announcer.getByRole('listitem').filter({ hasText: /^1 ?Pilot/ })).toBeVisible();
  await expect(announcer.getByText(/\d on average$/)).toBeVisible();
  await expect(announcer.getByText(/so this is exact/)).toBeVisible();
  for (const page of [announcer, chief, judge]) await page.context().close();
});

/** A freestyle of two flights, as a contest of its own; signs its first pilot in. */
async function freestyle(browser: Browser): Promise<{ pilot: Page; name: string }> {
  const bundle = JSON.parse(readFileSync('../testdata/cases/101.bundle.json', 'utf8'));
  const [category] = bundle.categories;
  const [known] = category.programmes;
  const items = [
    { kind: 'overall', k: 20, name: 'Presentation' },
    { kind: 'overall', k: 10, name: 'Positioning' },
  ];
  const show = {
    id: 'show',
    name: 'Freestyle',
    kind: 'freestyle',
    method: { name: 'mean' },
    panel: known.panel.slice(0, 1),
    flights: known.flights
      .slice(0, 2)
      .map(({ pilot }: { pilot: string }) => ({ pilot, status: 'scheduled', sequence: { items } })),
  };
  const categories = [{ ...category, programmes: [show], combine: undefined }];
  office.contest = (await office.ask<{ id: string }>('bundles', { ...bundle, categories })).id;
  const { pilots: entered } = await office.ask<{ pilots: { id: string; code: string; name: string }[] }>(
    `contests/${office.contest}/setup`,
  );
  const flier = entered.find(({ code }) => code === show.flights[0].pilot);
  const { link } = await office.ask<{ link: string }>(`contests/${office.contest}/invitations`, {
    role: 'pilot',
    pilot: flier?.id,
  });
  const pilot = await (await browser.newContext({ baseURL: office.url })).newPage();
  const account = { email: 'flier@example.org', name: 'Flier', password: 'a crow on every fence post' };
  const accepted = await pilot.request.post('/api/v1/invitations/acceptance', { data: { link, account } });
  expect(accepted.status()).toBe(201);
  return { pilot, name: flier?.name ?? '' };
}

test('a pilot tells the announcer of the own free style', async ({ browser }) => {
  const { pilot, name } = await freestyle(browser);
  const note = 'Came to flying from the trapeze.';
  const own = 'It begins with one great circle.\nThen everything gets faster.';
  await pilot.goto(`/contests/${office.contest}/pilot`);
  await pilot.getByLabel('A line about the pilot').fill(note);
  await pilot.getByLabel(/Freestyle, in the pilot’s own words/).fill(own);
  await pilot.context().setOffline(true);
  await pilot.getByRole('button', { name: 'Save' }).first().click();
  await expect(pilot.getByRole('alert')).toBeVisible();
  await pilot.context().setOffline(false);
  await pilot.reload();
  await expect(pilot.getByLabel('A line about the pilot')).toHaveValue(note);
  await expect(pilot.getByLabel(/Freestyle, in the pilot’s own words/)).toHaveValue(own);
  await expect(pilot.getByText('Not saved yet; it was found on this device.')).toHaveCount(2);
  expect(await hindrances(pilot)).toEqual([]);
  for (const button of await pilot.getByRole('button', { name: 'Save' }).all()) await button.click();
  await expect(pilot.getByText('Saved.')).toHaveCount(2);
  expect(await hindrances(pilot)).toEqual([]);

  const announcer = await paired(browser, office, 'announcer');
  const chief = await paired(browser, office, 'chief');
  await tap(chief, 'Call flight 1 on');
  await expect(announcer.getByRole('heading', { name })).toBeVisible();
  await expect(announcer.getByText(note)).toBeVisible();
  await expect(announcer.getByText(own)).toBeVisible();
  await expect(announcer.getByText('Presentation')).toBeVisible();
  expect(await hindrances(announcer)).toEqual([]);

  await pilot.getByRole('link', { name: 'Look at it' }).click();
  await pilot.getByLabel('The flight in the pilot’s own words').fill('Three loops.');
  await pilot.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(pilot.getByText('Saved.')).toBeVisible();
  await expect(announcer.getByText('Three loops.')).toBeVisible();
  expect(await hindrances(pilot)).toEqual([]);
  for (const page of [announcer, chief, pilot]) await page.context().close();
});
