import { rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { grade, officeForAll, pairByLink, sizes } from './line';

let judge: string;
/** What the tablet showed, code by code. */
const pictures: Buffer[] = [];

const office = officeForAll(8097, async (office) => {
  await office.setUp();
  judge = (await office.judges())[0]?.id ?? '';
});

const whole = ['7.5', '8.0', 'hard zero', '6.5', 'not seen', '9.0', '7.0', '8.5'];

/** Grades and signs a flight, and shows what waits as codes. */
async function signOffline(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^1\b/ }).click();
  await grade(page, whole);
  await page.getByRole('button', { name: 'Sign flight 1' }).click();
  await expect(page.getByTitle('About this tablet')).toHaveText('9 waiting');
}

test('a tablet without a network shows its signed sheet as codes', async ({ browser }) => {
  const context = await browser.newContext({ viewport: sizes.upright, hasTouch: true });
  const page = await context.newPage();
  await pairByLink(page, office, 'judge', judge);
  await expect(page.getByRole('button', { name: /^1\b/ })).toBeVisible();
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await context.setOffline(true);
  await signOffline(page);
  await page.getByTitle('About this tablet').click();
  await page.getByRole('button', { name: 'Show what waits as QR codes' }).click();
  const code = page.getByRole('img', { name: /^Code \d+ of \d+$/ });
  await page.getByRole('button', { name: 'Turn by itself' }).click(); // and it stands still
  const count = Number((await code.getAttribute('aria-label'))?.split(' ').at(-1));
  expect(count).toBeGreaterThan(1);
  for (let n = 0; n < count; n++) {
    const label = await code.getAttribute('aria-label');
    pictures.push(await page.locator('.code').screenshot({ type: 'jpeg', quality: 80 }));
    await page.getByRole('button', { name: 'Next code' }).click();
    await expect(code).not.toHaveAttribute('aria-label', label ?? '');
  }
  // A tablet that is closed has the network back for a moment, and would send: nobody is there to hear it.
  await office.stop('SIGTERM');
  await context.close();
  await office.start();
});

test('the office reads the codes from pictures, whatever their order, and once', async ({ page }) => {
  await page.goto(`${office.url}/scan`);
  const files = pictures.map((buffer, i) => ({ name: `${i}.jpg`, mimeType: 'image/jpeg', buffer }));
  const none = { name: 'nothing.png', mimeType: 'image/png', buffer: await page.screenshot() };
  const input = page.getByLabel('Or choose pictures of the codes');
  await input.setInputFiles([...files.slice(1), none]);
  await expect(page.getByText('nothing.png: no code of a tablet can be read in it.')).toBeVisible();
  await expect(page.getByText(`${files.length - 1} of ${files.length} codes read`)).toBeVisible();
  await input.setInputFiles(files.slice(0, 1));
  await expect(page.getByText('9 records are stored.')).toBeVisible();
  const sheet = await office.sheet(await office.flight(1), judge);
  expect(sheet).toMatchObject({ state: 'signed', records: whole.length });
});

test('a camera that is held before the codes reads them', async ({ browser }, info) => {
  // A film of the codes, each for a moment, again and again.
  const film = join(tmpdir(), `halfpoint-film-${process.pid}.mjpeg`);
  writeFileSync(film, Buffer.concat(pictures.flatMap((one) => Array<Buffer>(12).fill(one))));
  const { executablePath = '', args = [] } = info.project.use.launchOptions ?? {};
  const camera = ['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream'];
  const other = await browser
    .browserType()
    .launch({ executablePath, args: [...args, ...camera, `--use-file-for-fake-video-capture=${film}`] });
  try {
    const page = await other.newPage();
    await page.goto(`${office.url}/scan`);
    await page.getByRole('button', { name: 'Use this device’s camera' }).click();
    await expect(page.getByText('9 records are stored, 9 of them were here before.')).toBeVisible({
      timeout: 40_000,
    });
    await page.getByRole('button', { name: 'Stop the camera' }).click();
    await expect(page.locator('video')).toHaveCount(0);
  } finally {
    await other.close();
    rmSync(film);
  }
});
