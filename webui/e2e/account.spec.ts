import { createHmac } from 'node:crypto';
import { expect, test, type Browser, type Page } from '@playwright/test';
import { demoContest, read } from './demo';
import { hindrances, paleInOtherThemes } from './hindrances';
import { asOwner, invitation, signIn, type Person } from './office';

test.use({ viewport: { width: 1024, height: 768 } });

const wrongSignIn = 'This e-mail address and this password do not go together.';
const heading = (page: Page, name: string) => page.getByRole('heading', { level: 1, name });
const signedInAs = (page: Page) => page.getByRole('link', { name: 'Signed in as' });

async function tap(page: Page, ...names: string[]): Promise<void> {
  for (const name of names) await page.getByRole('button', { name, exact: true }).click();
}

async function give(page: Page, email: string, password: string): Promise<void> {
  await page.getByLabel('E-mail address').fill(email);
  await page.getByLabel('Password', { exact: true }).fill(password);
  await tap(page, 'Sign in');
}

/** A page of another browser that the same person signs in with. */
async function elsewhere(browser: Browser, { email, password }: Person): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await page.goto('/sign-in?to=/account');
  await give(page, email, password);
  await expect(heading(page, 'Your account')).toBeVisible();
  return page;
}

const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** The bytes of base32 (RFC 4648, section 6). */
function bytes(text: string): Buffer {
  const bits = [...text].map((letter) => alphabet.indexOf(letter).toString(2).padStart(5, '0')).join('');
  return Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => parseInt(byte, 2)));
}

/** The code of a key (RFC 6238, with what authenticator apps take for granted), so many steps from now. */
function codeOf(key: string, steps = 0): string {
  const counter = Buffer.alloc(8);
  counter.writeBigUInt64BE(BigInt(Math.floor(Date.now() / 30_000) + steps));
  const mac = createHmac('sha1', bytes(key)).update(counter).digest();
  const number = mac.readUInt32BE((mac.at(-1) ?? 0) & 15) & 0x7fffffff;
  return String(number % 1_000_000).padStart(6, '0');
}

// From RFC 6238, appendix B: SHA-1, 59 seconds after the beginning of 1970, its last six digits.
test('the code that these tests compute is the standard’s', () => {
  const key = 'GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ'; // "12345678901234567890" in base32
  expect(codeOf(key, 1 - Math.floor(Date.now() / 30_000))).toBe('287082');
});

test('somebody is invited, signs in with a second factor, and out', async ({ page, browser }) => {
  const director = await signIn(page, 'director');
  await page.goto(`/contests/${director.contest}/people`);
  await page.getByLabel('Whom it is for').fill('Ottilie, for the office');
  await tap(page, 'Make a link');
  await expect(page.getByRole('listitem').filter({ hasText: 'Ottilie, for the office' })).toBeVisible();
  const link = await page.locator('.link').innerText();

  const hers = await (await browser.newContext()).newPage();
  await hers.goto(link);
  await expect(heading(hers, 'Office at ')).toBeVisible();
  const email = `ottilie-${Date.now()}@example.org`;
  const password = 'seven hats in the rain';
  await hers.getByLabel('Your name').fill('Ottilie Brandt');
  await hers.getByLabel('E-mail address').fill(email);
  await hers.getByLabel('New password').fill('short');
  await tap(hers, 'Make the account and accept');
  await expect(hers.getByLabel('New password')).toHaveAttribute('aria-invalid', 'true');
  await hers.getByLabel('New password').fill(password);
  await tap(hers, 'Make the account and accept');
  await expect(signedInAs(hers)).toContainText('Ottilie Brandt');
  expect(new URL(hers.url()).hash).toBe('');

  await signedInAs(hers).click();
  await tap(hers, 'Set it up');
  await expect(hers.locator('code')).toHaveText(/^[A-Z2-7 ]{39}$/);
  const key = (await hers.locator('code').innerText()).replaceAll(' ', '');
  await hers.getByLabel('Code of your second factor').fill(codeOf(key));
  await tap(hers, 'Confirm');
  await expect(hers.getByText('The second factor is set up.', { exact: false })).toBeVisible();
  await tap(hers, 'Sign out');
  await expect(hers.getByRole('link', { name: 'Sign in' })).toBeVisible();

  await hers.goto('/sign-in?to=/office');
  await give(hers, email, password);
  const code = hers.getByLabel('Code of your second factor');
  await expect(code).toBeFocused();
  await code.fill('000000');
  await tap(hers, 'Sign in');
  await expect(hers.getByRole('alert')).toContainText('not the code that counts now');
  await code.fill(codeOf(key, 1)); // the present one is used up
  await tap(hers, 'Sign in');
  await expect(heading(hers, 'Contest office')).toBeVisible();
  await expect(hers.getByRole('table').first()).toBeVisible();

  await page.reload();
  await expect(page.getByRole('listitem').filter({ hasText: email })).toContainText('Office');
  await hers.context().close();
});

test('a session that is ended elsewhere is over, and what was typed stays', async ({ page, browser }) => {
  const person = await signIn(page, 'office');
  const away = await elsewhere(browser, person);
  await away.getByText('Change the password').click();
  await away.getByLabel('Present password').fill(person.password);
  await away.getByLabel('New password').fill('a heron stands on one leg');

  await page.goto('/account');
  await page.getByRole('button', { name: 'End it' }).click();
  await expect(page.getByText('The session is over.')).toBeVisible();

  await tap(away, 'Change it');
  const asked = away.getByRole('dialog');
  await expect(asked).toContainText('your session is over');
  await expect(away.getByLabel('New password')).toHaveValue('a heron stands on one leg');
  await asked.getByLabel('E-mail address').fill(person.email);
  await asked.getByLabel('Password', { exact: true }).fill(person.password);
  await asked.getByRole('button', { name: 'Sign in', exact: true }).click();
  await expect(away.getByText('Your password is changed', { exact: false })).toBeVisible();
  await away.context().close();

  await page.reload();
  await expect(page.getByRole('dialog')).toContainText('your session is over');
});

test('a wrong password is told plainly, and the right one is typed with keys alone', async ({ page }) => {
  const { email, password } = await signIn(page, 'office');
  await page.context().clearCookies();
  await page.goto('/sign-in?to=/account');
  await expect(page.getByLabel('E-mail address')).toBeFocused();
  await page.keyboard.type(email);
  await page.keyboard.press('Tab');
  await page.keyboard.type('not the one at all');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert')).toHaveText(wrongSignIn);
  await expect(page.getByLabel('E-mail address')).toHaveValue(email);
  await page.getByLabel('Password', { exact: true }).press('ControlOrMeta+a');
  await page.keyboard.type(password);
  await page.keyboard.press('Enter');
  await expect(heading(page, 'Your account')).toBeFocused();
});

/** A free flight that is flown last, whose sequence other tests leave alone. */
async function freeFlight(page: Page): Promise<{ id: string; pilot: { id: string } }> {
  const { categories } = await read(page, `contests/${await demoContest(page)}`, asOwner);
  const programme = categories.at(-1).programmes.find((one: { kind: string }) => one.kind === 'free').id;
  const { sequences } = await read(page, `programmes/${programme}/sequences`, asOwner);
  return sequences.at(-1).flight;
}

test('a pilot registers the own sequence, and signs nothing off', async ({ page }) => {
  const flight = await freeFlight(page);
  await signIn(page, 'pilot', '', { pilot: flight.pilot.id });
  await page.goto(`/flights/${flight.id}`);
  await page.getByRole('link', { name: 'Your sequence' }).click();
  await page.getByLabel('K of the figure').fill('19.5');
  await page.getByRole('button', { name: 'Register' }).first().click();
  await expect(page.getByText('It is what you see.', { exact: false })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Sign off' })).toHaveCount(0);
  await page.reload();
  await expect(page.getByLabel('K of the figure')).toHaveValue('19.5');
});

test('nothing hinders a reader of the account pages', async ({ page }) => {
  const { link, contest } = await invitation(page, 'director');
  await page.goto(`/invitation#${link}`);
  await expect(page.getByLabel('Your name')).toBeFocused();
  expect(await hindrances(page)).toEqual([]);
  await page.goto('/sign-in');
  await give(page, 'nobody@example.org', 'no password of theirs');
  await expect(page.getByRole('alert')).toHaveText(wrongSignIn);
  expect(await hindrances(page)).toEqual([]);

  await signIn(page, 'director');
  await page.goto(`/contests/${contest}/people`);
  await tap(page, 'Make a link');
  await expect(page.locator('.link')).toBeVisible();
  expect(await hindrances(page)).toEqual([]);
  await page.goto('/account');
  await tap(page, 'Set it up');
  await expect(page.locator('code')).toBeVisible();
  expect(await hindrances(page)).toEqual([]);
  expect(await paleInOtherThemes(page)).toEqual([]);
});
