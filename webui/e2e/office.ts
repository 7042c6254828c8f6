/** How the browser tests get in: by invitations that the owner's token of the demonstration makes. */

import { randomUUID } from 'node:crypto';
import { expect, type Page } from '@playwright/test';
import { demoContest, read } from './demo';

/** The token of the demonstration that the browser tests start. */
export const officeToken = process.env.HALFPOINT_OFFICE_TOKEN ?? 'the-office-of-the-browser-tests';

/** What a request says to be the owner's. */
export const asOwner = { Authorization: `Bearer ${officeToken}` };

export interface Person {
  contest: string;
  name: string;
  email: string;
  password: string;
}

/** Which of a contest's pilots or judges somebody is. */
interface Who {
  pilot?: string;
  judge?: string;
}

/** The secret of a link that gives a role in a contest; in the demonstration's where none is named. */
export async function invitation(
  page: Page,
  role: string,
  of = '',
  who: Who = {},
): Promise<{ contest: string; link: string }> {
  const contest: string = of || (await demoContest(page));
  const path = `/api/v1/contests/${contest}/invitations`;
  const made = await page.request.post(path, { headers: asOwner, data: { role, ...who } });
  expect(made.status(), await made.text()).toBe(201);
  return { contest, link: (await made.json()).link };
}

/** Signs the page's browser in as somebody new who has a role in a contest. */
export async function signIn(page: Page, role = 'office', of = '', who: Who = {}): Promise<Person> {
  const { contest, link } = await invitation(page, role, of, who);
  const email = `${randomUUID()}@example.org`;
  const account = { email, name: 'Mara Quist', password: 'a crow on every fence post' };
  const accepted = await page.request.post('/api/v1/invitations/acceptance', { data: { link, account } });
  expect(accepted.status()).toBe(201);
  await page.addInitScript((name) => localStorage.setItem('halfpoint.name', name), account.name);
  return { contest, ...account };
}

/** A contest of a test's own: one programme of the demonstration's, all flown, its categories reckoned in some way. */
export async function ownContest(page: Page, named: string, by = 'sum-percent') {
  const bundle = await read(page, `contests/${await demoContest(page)}/bundle`, asOwner);
  const [category] = bundle.categories;
  bundle.contest.name = `${named} ${randomUUID().slice(0, 8)}`;
  bundle.categories = [{ ...category, programmes: category.programmes.slice(0, 1), combine: { by } }];
  const made = await page.request.post('/api/v1/bundles?opened=published', {
    headers: asOwner,
    data: bundle,
  });
  expect(made.status(), await made.text()).toBe(201);
  return made.json();
}

/** Publishes results as provisional: of `programmes/7`, of `categories/7`. */
export async function publish(page: Page, of: string, more: object = {}): Promise<void> {
  const data = { state: 'provisional', ...more };
  const made = await page.request.post(`/api/v1/${of}/publications`, { headers: asOwner, data });
  expect(made.status(), await made.text()).toBe(200);
}
