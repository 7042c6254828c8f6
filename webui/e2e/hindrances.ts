import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const standard = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What is not against the page is not reported. */
const resultTypes = ['violations' as const];

/** No page has frames, to be put together in one opened for that. */
const axe = (page: Page) => new AxeBuilder({ page }).options({ resultTypes }).setLegacyMode();

/** What axe finds on a page as it stands, held to the standard. */
export const hindrances = (page: Page): Promise<string[]> => found(axe(page).withTags(standard));

/** What axe finds, held to good practice too. */
export const allHindrances = (page: Page): Promise<string[]> => found(axe(page));

/** What of that hinders gravely; by some rules alone where they are named. */
export function graveHindrances(page: Page, rules?: string[]): Promise<string[]> {
  return found(rules ? axe(page).withRules(rules) : axe(page), ['serious', 'critical']);
}

/** What axe finds held to the standard, with the contrast of 7:1 that the line's screens have. */
export function hindrancesOnTheLine(page: Page): Promise<string[]> {
  const runOnly = { type: 'tag' as const, values: standard };
  const rules = { 'color-contrast-enhanced': { enabled: true } };
  return found(axe(page).options({ resultTypes, runOnly, rules }));
}

/** What axe finds against the colours in the other themes: what is on a page is the same in each but for them. */
export async function paleInOtherThemes(page: Page): Promise<string[]> {
  const all: string[] = [];
  for (const theme of ['dark', 'sun']) {
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme);
    const pale = await found(axe(page).withRules(['color-contrast', 'link-in-text-block']));
    all.push(...pale.map((text) => `${theme} ${text}`));
  }
  return all;
}

/** By how many pixels a page is wider than its window. */
export const tooWide = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - innerWidth);

async function found(builder: AxeBuilder, impacts?: string[]): Promise<string[]> {
  const { violations } = await builder.analyze();
  return violations
    .filter(({ impact }) => !impacts || impacts.includes(impact ?? ''))
    .flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`));
}
