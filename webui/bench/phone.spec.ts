import { expect, test, type Browser } from '@playwright/test';
import { Office } from '../e2e/line';
import { large, pilots } from './large';

/**
 * A slow phone on a field's mobile network: 1.6 Mbit/s with 150 ms there and back,
 * on a processor a quarter as fast as this one. It is what Lighthouse takes for a
 * phone (its "slow 4G", from memory), so that others can compare.
 */
const network = {
  offline: false,
  latency: 150,
  downloadThroughput: 1_600_000 / 8,
  uploadThroughput: 750_000 / 8,
};
const slower = 4;
const rounds = 5;

/** Notes in a page when the first score stood there and was handed on to be drawn; nothing is before the styles are there. */
function noteFirstScore() {
  const score = () => document.querySelector('.standings td.main');
  new MutationObserver((_, observer) => {
    if (!score()) return;
    observer.disconnect();
    requestAnimationFrame(() => setTimeout(() => performance.mark('first score')));
  }).observe(document, { childList: true, subtree: true });
}

/** When the standings were painted, in ms after the page was asked for, and what was sent for it. */
async function readable(browser: Browser, url: string): Promise<{ ms: number; bytes: number }> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  const phone = await context.newCDPSession(page);
  await phone.send('Network.enable');
  await phone.send('Network.emulateNetworkConditions', network);
  await phone.send('Emulation.setCPUThrottlingRate', { rate: slower });
  let bytes = 0;
  phone.on('Network.loadingFinished', (done) => (bytes += done.encodedDataLength));
  await page.addInitScript(noteFirstScore);
  await page.goto(url);
  await expect(page.getByText('live', { exact: true })).toBeVisible(); // the script has taken over
  const ms = await page.evaluate(() => performance.getEntriesByName('first score')[0]?.startTime ?? Infinity);
  await page.evaluate(() => document.fonts.ready);
  await context.close();
  return { ms, bytes };
}

test(`the standings of ${pilots} pilots on a slow phone`, async ({ browser }) => {
  test.setTimeout(300_000);
  const office = new Office(8099);
  try {
    await office.start();
    const { id } = await office.ask<{ id: string }>('bundles?opened=live', large());
    const { categories } = await office.ask<{ categories: { programmes: { id: string }[] }[] }>(
      `contests/${id}`,
    );
    const url = `${office.url}/programmes/${categories[0]?.programmes[0]?.id}`;
    const found = [];
    for (let n = 0; n < rounds; n++) found.push(await readable(browser, url));
    const times = found.map(({ ms }) => Math.round(ms)).sort((a, b) => a - b);
    console.log(
      `readable after ${times[Math.floor(rounds / 2)]} ms, at worst ${times.at(-1)}; 2,000 is asked for`,
    );
    console.log(`${found[0]?.bytes} bytes as sent`);
  } finally {
    await office.stop('SIGTERM');
    office.remove();
  }
});
