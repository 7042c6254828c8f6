import { expect, test, type Page } from '@playwright/test';
import { read } from './demo';
import { allHindrances } from './hindrances';
import { signIn } from './office';

/** A flight that nobody has flown yet, with the panel's seats. */
async function flightToCome(page: Page, contest: string): Promise<string> {
  const { categories } = await read(page, `contests/${contest}`);
  for (const category of [...categories].reverse()) {
    for (const programme of [...category.programmes].reverse()) {
      const { flights } = await read(page, `programmes/${programme.id}/results`);
      const found = flights.findLast((one: { state: string }) => one.state === 'scheduled');
      if (found) return found.id;
    }
  }
  throw new Error('every flight is flown');
}

/** Types a sheet from its first field to its end and sends it, by the keyboard alone. */
async function type(page: Page, grades: string[]): Promise<void> {
  await expect(page.locator('#grade-0')).toBeFocused();
  for (const grade of grades) {
    await page.keyboard.type(grade);
    await page.keyboard.press('Enter');
  }
  await expect(page.getByRole('checkbox')).toBeFocused();
  await page.keyboard.press('Enter');
}

test('a paper sheet is keyed twice, differs, and is entered, with the keyboard alone', async ({ page }) => {
  const { contest } = await signIn(page);
  const flight = await flightToCome(page, contest);
  await page.goto(`/flights/${flight}/paper`);
  const seats = page.getByRole('list', { name: 'Seats of the panel' });
  await expect(seats).toContainText('not signed');
  const name = (await seats.getByRole('button', { pressed: true }).innerText()).split('\n')[0] ?? '';
  const chosen = seats.getByRole('button', { name });
  const fields = page.locator('form input[inputmode=decimal]');
  await expect(fields.first()).toBeFocused();
  const items = await fields.count();
  const grades = Array.from({ length: items }, (_, i) => ['75', '8', '/', '6.5'][i % 4] ?? '');
  const submit = page.locator('form button');

  await test.step('a reload keeps what is typed, and what is no grade is said', async () => {
    await page.keyboard.type('73');
    await page.reload();
    await expect(fields.first()).toHaveValue('73');
    await submit.click();
    await expect(page.getByText('Not a grade: 0 to 10 in halves.')).toBeVisible();
    await expect(fields.first()).toBeFocused();
  });

  await test.step('the first reading waits', async () => {
    await type(page, grades);
    await expect(page.getByRole('status').filter({ hasText: 'the first reading is kept' })).toBeVisible();
    await expect(chosen).toContainText('read once');
  });

  await test.step('another reading differs in one place', async () => {
    await chosen.click();
    await expect(page.getByText('You made the first one')).toBeVisible();
    await type(page, ['70', ...grades.slice(1)]);
    await expect(page.getByText('read as 7.5, then as 7.0')).toBeVisible();
    expect(await allHindrances(page)).toEqual([]);
  });

  await test.step('a third look settles it', async () => {
    await expect(fields.first()).toBeFocused();
    await page.keyboard.type('75');
    await submit.click();
    await expect(page.getByText('both readings agree, the sheet is entered')).toBeVisible();
    await expect(chosen).toContainText('signed');
  });
});
