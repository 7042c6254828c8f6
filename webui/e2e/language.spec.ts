import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { demoContest, read } from './demo';
import { allHindrances } from './hindrances';

test.use({ locale: 'de-AT' });

test('a reader is spoken to in the language of the device, and chooses another', async ({ page }) => {
  await page.goto('/');
  await expect(page.locator('html')).toHaveAttribute('lang', 'de');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Wettbewerbe');
  await page.getByRole('button', { name: 'English' }).click();
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Contests');
  await page.reload();
  await expect(page.getByRole('button', { name: 'Deutsch' })).toBeVisible();
});

test('pages that load later speak it too, and hinder nobody', async ({ page }) => {
  await page.goto(`/contests/${await demoContest(page)}`);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(page.locator('main')).toContainText('Flüge');
  expect(await allHindrances(page)).toEqual([]);
  await page.goto('/sequence');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(page.locator('main')).toContainText('Figur');
});

test('a table that is saved speaks it', async ({ page }) => {
  const { categories } = await read(page, `contests/${await demoContest(page)}`);
  await page.goto(`/programmes/${categories[0].programmes[0].id}`);
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Als CSV speichern' }).click();
  expect(readFileSync(await (await saved).path(), 'utf8')).toMatch(/^\ufeff?Rang,/);
});
