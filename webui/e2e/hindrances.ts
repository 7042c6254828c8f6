import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const standard = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What axe finds on a page as it stands. */
export async function hindrances(page: Page): Promise<string[]> {
  return found(new AxeBuilder({ page }).withTags(standard));
}

/** What axe finds against the colours of a page as it stands. */
export async function paleColours(page: Page): Promise<string[]> {
  return found(new AxeBuilder({ page }).withRules(['color-contrast', 'link-in-text-block']));
}

async function found(axe: AxeBuilder): Promise<string[]> {
  const { violations } = await axe.analyze();
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`));
}
