import { expect, test, type Page } from '@playwright/test';
import { demoContest, read } from './demo';
import { allHindrances, tooWide } from './hindrances';
import decodeQR from 'qr/decode.js';

const safety = /can be flown safely: .* decide\.$/;
const paperSizes = {
  a4: { upright: [595, 842], across: [842, 595] },
  letter: { upright: [612, 792], across: [792, 612] },
} as const;

interface Found {
  programme: string;
  flight: string;
  pilots: string[];
  seats: number;
}

/** The first programme whose flights all fly the same. */
async function known(page: Page): Promise<Found> {
  const { categories } = await read(page, `contests/${await demoContest(page)}`);
  const programmes = categories.flatMap((one: { programmes: object[] }) => one.programmes);
  const { id, seats } = programmes.find((one: { kind: string }) => one.kind === 'known');
  const { flights } = await read(page, `programmes/${id}/results`);
  const pilots = flights.map((one: { pilot: { name: string } }) => one.pilot.name);
  return { programme: id, flight: flights[1].id, pilots, seats };
}

const sheets = (page: Page) => page.locator('.sheet');

async function open(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await expect(sheets(page).first()).toBeVisible();
  await page.evaluate(() => document.fonts.ready);
}

/** The size of each page that the browser makes of what is shown, in whole points. */
async function printed(page: Page): Promise<number[][]> {
  const file = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  const pages = file.split(/\/Type\s*\/Page\b/).slice(1);
  return pages.map((text) => {
    const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(text) ?? [];
    return box.slice(1).map((side) => Math.round(Number(side)));
  });
}

/** Sheets on which something reaches into the line at the foot, or past the right edge. */
function overflowing(): string[] {
  const spilt = (sheet: Element) => {
    const foot = sheet.querySelector('footer')?.getBoundingClientRect();
    const all = [...sheet.querySelectorAll('.body *')].map((one) => one.getBoundingClientRect());
    return !foot || all.some(({ bottom, right }) => bottom > foot.top + 1 || right > foot.right + 1);
  };
  return [...document.querySelectorAll('.sheet')].filter(spilt).map((one) => one.ariaLabel ?? '');
}

const choose = (page: Page, what: string, value: string) =>
  page.getByRole('combobox', { name: what }).selectOption(value);

test('every card is printed on as many pages as are shown, and fills none too far', async ({ page }) => {
  const { programme } = await known(page);
  await open(page, `/programmes/${programme}/cards?flights=2&wind=both`);
  for (const kind of ['sequence', 'caller', 'grades', 'order'] as const) {
    await choose(page, 'Card', kind);
    for (const paper of ['a4', 'letter'] as const) {
      await choose(page, 'Paper', paper);
      await expect(page.locator(`.sheet:not(.${kind}.${paper})`)).toHaveCount(0);
      const size = paperSizes[paper][kind === 'sequence' ? 'across' : 'upright'];
      const count = await sheets(page).count();
      expect(await printed(page), `${kind} on ${paper}`).toEqual(Array(count).fill(size));
      await page.emulateMedia({ media: 'print' });
      expect(await page.evaluate(overflowing), `${kind} on ${paper}`).toEqual([]);
      await expect(page.locator('.sheet footer').getByText(safety)).toHaveCount(count);
      await page.emulateMedia({ media: null });
    }
  }
});

test('a figure has 3 cm of a sequence card', async ({ page }) => {
  const { programme } = await known(page);
  await open(page, `/programmes/${programme}/cards?kind=sequence&flights=one&paper=letter`);
  await page.emulateMedia({ media: 'print' });
  const heights = await page
    .locator('.sheet .drawing')
    .evaluateAll((all) => all.map((one) => one.clientHeight));
  expect(heights.length).toBeGreaterThan(0);
  expect(Math.min(...heights)).toBeGreaterThanOrEqual((3 / 2.54) * 96);
});

test('the grade sheets of a flight are one for each seat, with a code and without a name', async ({
  page,
}) => {
  const { programme, flight, pilots, seats } = await known(page);
  await open(page, `/programmes/${programme}/cards?kind=grades&flights=2`);
  await expect(sheets(page)).toHaveCount(seats);
  const text = await page.getByRole('region', { name: 'The pages as they are printed' }).innerText();
  expect(pilots.filter((name) => text.includes(name))).toEqual([]);
  await expect(page).toHaveTitle(/^Grade sheet · .* · flight 2 · Halfpoint$/);

  const drawn = await sheets(page).nth(2).locator('svg.qr path').getAttribute('d');
  const box = await sheets(page).nth(2).locator('svg.qr').getAttribute('viewBox');
  expect(decodeQR(picture(drawn ?? '', Number(box?.split(' ')[2])))).toBe(
    new URL(`/flights/${flight}?seat=3`, page.url()).href,
  );
});

/** A code as a camera would see it on paper, four pixels a module. */
function picture(path: string, modules: number) {
  const [scale, size] = [4, modules * 4];
  const data = new Uint8Array(size * size * 4).fill(255);
  for (const [, x, y] of path.matchAll(/M(\d+) (\d+)/g)) {
    for (let row = 0; row < scale; row++) {
      const from = ((Number(y) * scale + row) * size + Number(x) * scale) * 4;
      data.fill(0, from, from + scale * 4);
    }
  }
  return { width: size, height: size, data };
}

test('a flight’s page leads to its cards, for either wind', async ({ page }) => {
  const { flight } = await known(page);
  await page.goto(`/flights/${flight}`);
  await page.getByRole('link', { name: 'Cards to print' }).click();
  await expect(sheets(page)).toHaveCount(1);
  await expect(sheets(page)).toContainText('Wind from the right');
  const drawing = sheets(page).locator('.drawing').first();
  const right = await drawing.innerHTML();
  await choose(page, 'Wind', 'left');
  await expect(sheets(page)).toContainText('Wind from the left');
  expect(await drawing.innerHTML()).not.toBe(right);
});

for (const [theme, card] of [
  ['light', 'kind=sequence&flights=one'],
  ['dark', 'kind=grades&flights=2&seat=1'],
  ['sun', 'kind=order'],
]) {
  test(`nothing stands in a reader's way in the ${theme} theme, on a phone`, async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.addInitScript((chosen) => localStorage.setItem('halfpoint.theme', chosen), theme);
    const { programme } = await known(page);
    await open(page, `/programmes/${programme}/cards?${card}`);
    expect(await allHindrances(page)).toEqual([]);
    expect(await tooWide(page)).toBeLessThanOrEqual(0);
  });
}
