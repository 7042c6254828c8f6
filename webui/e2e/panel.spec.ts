import { expect, test, type Browser, type Page } from '@playwright/test';
import { demoContest, demoForAll, read } from './demo';
import { allHindrances, tooWide } from './hindrances';
import { asOwner, officeToken, ownContest, publish, signIn } from './office';

demoForAll(8104, { HALFPOINT_OFFICE_TOKEN: officeToken });

interface Named {
  id: string;
  name: string;
}

/** A contest of the test's own, with its programme and the judges of the panel. */
async function flown(page: Page): Promise<{ contest: string; programme: string; judges: Named[] }> {
  const { id: contest, categories } = await ownContest(page, 'Judged');
  const programme = categories[0].programmes[0].id;
  const { panel } = await read(page, `programmes/${programme}`, asOwner);
  return { contest, programme, judges: panel.map(({ judge }: { judge: Named }) => judge) };
}

/** A page of somebody new with a role; what it says of the content policy fails the test. */
async function as(browser: Browser, contest: string, role: string, judge = ''): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await signIn(page, role, contest, judge ? { judge } : {});
  page.on('console', (message) => expect(message.text()).not.toContain('Content Security Policy'));
  return page;
}

test('a judge reads the own analysis when results are published, everyone all when the director says so', async ({
  page,
  browser,
}) => {
  test.setTimeout(180_000);
  const { contest, programme, judges } = await flown(page);
  const [own, other] = judges as [Named, Named];
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
  expect(await allHindrances(director)).toEqual([]);

  // A picture has its numbers beside it, by the keyboard alone.
  const summary = director.getByText('As a table: Shift');
  await summary.focus();
  await director.keyboard.press('Enter');
  await expect(director.getByRole('rowheader', { name: `Seat 1, ${own.name}` })).toBeVisible();

  // With results the judge reads the own, and no other's.
  await publish(page, `programmes/${programme}`);
  await judge.reload();
  await judge.getByRole('link', { name: 'Your own analysis' }).click();
  await expect(judge.getByRole('heading', { name: `${own.name} against the panel` })).toBeVisible();
  await expect(judge.getByRole('img', { name: 'How often each grade was given' })).toBeVisible();
  await expect(judge.getByText('Only you, the director, the office and the jury see this.')).toBeVisible();
  expect(await allHindrances(judge)).toEqual([]);
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
    await expect.poll(() => tooWide(director)).toBeLessThanOrEqual(0);
    expect(await allHindrances(director)).toEqual([]);
  });
}
