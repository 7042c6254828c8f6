import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const standard = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What axe finds on a page as it stands. */
export async function hindrances(page: Page): Promise<string[]> {
  return found(axe(page).withTags(standard));
}

/** What axe finds against the colours of a page as it stands. */
export async function paleColours(page: Page): Promise<string[]> {
  return found(axe(page).withRules(['color-contrast', 'link-in-text-block']));
}

/** What is not against the page is not reported; and no page has frames, to be put together in one opened for that. */
const axe = (page: Page) => new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).setLegacyMode();

async function found(builder: AxeBuilder): Promise<string[]> {
  const { violations } = await builder.analyze();
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`));
}
