import { expect, test } from '@playwright/test';
import { hindrancesOnTheLine } from './hindrances';
import { officeForAll, pairByLink, paired, sizes, tap, tooSmall, word } from './line';

const office = officeForAll();

test('a flight is called on, graded, ruled on and closed, and every tablet goes with it', async ({
  browser,
}) => {
  const open = (role: string, judge?: string) => paired(browser, office, role, judge);
  const [first] = await office.judges();
  const chief = await open('chief');
  const judge = await open('judge', first?.id);
  const assistant = await open('assistant', first?.id);
  await expect(assistant.getByText('No flight is called on.')).toBeVisible();

  await tap(chief, 'Call flight 1 on');
  await expect(judge.getByRole('heading', { name: 'Flight 1' })).toBeVisible();
  await expect(assistant.getByRole('heading', { name: 'Flight 1' })).toBeVisible();
  await tap(chief, 'In the air');
  await expect(chief.getByRole('timer')).toBeVisible();
  const keys = judge.getByRole('group', { name: 'Grades' });
  await keys.getByRole('button', { name: '7.5', exact: true }).click();
  await expect(assistant.getByText('now: 2')).toBeVisible();
  await expect(chief.getByRole('row', { name: /^1 / })).toContainText('7.5');

  await chief.context().setOffline(true);
  await tap(chief, 'Down');
  for (const seat of [2, 3, 4, 5, 6, 7]) {
    await chief.getByRole('button', { name: new RegExp(`^Seat ${seat}`) }).click();
    await tap(chief, 'Absent for this flight');
    await expect(chief.getByRole('button', { name: 'Back in the seat' })).toBeVisible();
  }
  await tap(chief, 'Back to the flight');
  await expect(chief.getByText('Not signed: seat 1')).toBeVisible();
  await chief.reload();
  await chief.getByRole('button', { name: /^Close flight 1/ }).click();
  await expect(chief.getByRole('heading', { name: 'Flight 2' })).toBeVisible();
  await expect(word(chief)).toHaveText('8 waiting');
  await chief.context().setOffline(false);
  await expect(word(chief)).toHaveText('all at the office', { timeout: 30_000 });
  await expect(judge.getByRole('heading', { name: 'Which flight?' })).toBeVisible();
  for (const page of [chief, judge, assistant]) await page.context().close();
});

for (const theme of ['light', 'dark', 'sun']) {
  test(`the officials’ pages can be hit and read in the ${theme} theme`, async ({ browser }) => {
    test.setTimeout(180_000);
    for (const role of ['chief', 'assistant']) {
      const page = await (await browser.newContext({ viewport: sizes.across, hasTouch: true })).newPage();
      await page.addInitScript((name) => localStorage.setItem('halfpoint.theme', name), theme);
      await pairByLink(page, office, role);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      await expect(word(page)).toHaveText('all at the office');
      expect(await hindrancesOnTheLine(page)).toEqual([]);
      expect(await tooSmall(page)).toEqual([]);
      await page.setViewportSize(sizes.upright);
      expect(await tooSmall(page)).toEqual([]);
      await page.context().close();
    }
  });
}
