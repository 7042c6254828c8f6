import { readFileSync } from 'node:fs';
import { expect, test, type Browser } from '@playwright/test';
import { officeForAll } from './line';

/** Addresses of a flown and published contest whose results do not change any more. */
const pages: string[] = [];

const office = officeForAll(8121, async (office) => {
  const bundle = JSON.parse(readFileSync('../testdata/cases/102.bundle.json', 'utf8'));
  bundle.categories[0].entries[4].ranked = false;
  const { id } = await office.ask<{ id: string }>('bundles?opened=live', bundle);
  const { categories } = await office.ask<{ categories: { id: string; programmes: { id: string }[] }[] }>(
    `contests/${id}`,
  );
  const [category] = categories;
  for (const of of [`programmes/${category?.programmes[0]?.id}`, `categories/${category?.id}`]) {
    await office.ask(`${of}/publications`, { state: 'provisional' });
    const { about } = await office.ask<{ about: { id: string } }>(`${of}/publications/latest`);
    pages.push(of, `${of}/published`, `publications/${about.id}`);
  }
});

/** What stands in the rows of a page: rank, name and numbers. */
async function rows(browser: Browser, path: string, javaScriptEnabled: boolean): Promise<string[][]> {
  const context = await browser.newContext({ javaScriptEnabled });
  const page = await context.newPage();
  await page.goto(`${office.url}/${path}`);
  await expect(page.getByRole('main')).toHaveCount(1);
  await expect(page.locator('.drawn-ahead')).toHaveCount(javaScriptEnabled ? 0 : 1);
  const all = page.locator('.standings').first().locator('tbody tr:not(.group)');
  await expect(all).toHaveCount(23); // the case's pilots: the last rows come after the first are painted
  const found = await all.evaluateAll((rows) =>
    rows.map((row) => [...row.querySelectorAll<HTMLElement>('.num, .name')].map((one) => one.innerText)),
  );
  await context.close();
  return found;
}

test('standings and published results are the same without any script', async ({ browser }) => {
  expect(pages).toHaveLength(6);
  for (const path of pages) {
    const without = await rows(browser, path, false);
    expect(without, path).toEqual(await rows(browser, path, true));
  }
});

test('what the server drew is in the language of the device, and no wider than a phone', async ({
  browser,
}) => {
  const context = await browser.newContext({
    javaScriptEnabled: false,
    locale: 'de-AT',
    viewport: { width: 390, height: 844 },
  });
  const page = await context.newPage();
  await page.goto(`${office.url}/${pages[2]}`);
  await expect(page.getByText('Vorläufig')).toBeVisible();
  await expect(page.getByRole('navigation', { name: 'Wo Sie sind' })).toBeVisible();
  const widest = await page.locator('.drawn-ahead').boundingBox();
  expect(widest?.width).toBeLessThanOrEqual(390);
  await context.close();
});
