import { expect, type Page } from '@playwright/test';

/** When the largest part of what is seen was painted, in ms after the page was asked for. */
export async function largestPaint(page: Page): Promise<number> {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible({ timeout: 30_000 });
  return page.evaluate(async () => {
    let last = 0;
    const seen = (list: PerformanceObserverEntryList) => (last = list.getEntries().at(-1)?.startTime ?? last);
    new PerformanceObserver(seen).observe({ type: 'largest-contentful-paint', buffered: true });
    await new Promise((resolve) => setTimeout(resolve, 1_000)); // what comes later may be larger
    return last;
  });
}
