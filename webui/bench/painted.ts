import { expect, type Page } from '@playwright/test';

/** In ms after a page was asked for: when its first words were painted, and when the largest part of what is seen. */
export interface Painted {
  first: number;
  largest: number;
}

export async function painted(page: Page): Promise<Painted> {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible({ timeout: 30_000 });
  return page.evaluate(async () => {
    let largest = 0;
    const seen = (list: PerformanceObserverEntryList) =>
      (largest = list.getEntries().at(-1)?.startTime ?? largest);
    new PerformanceObserver(seen).observe({ type: 'largest-contentful-paint', buffered: true });
    await new Promise((resolve) => setTimeout(resolve, 1_000)); // what comes later may be larger
    const first = performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? largest;
    return { first, largest };
  });
}
