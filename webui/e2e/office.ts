/** How the browser tests get in: by invitations that the owner's token of the demonstration makes. */

import { randomUUID } from 'node:crypto';
import { expect, type Page } from '@playwright/test';
import { demoContest } from './demo';

/** The token of the demonstration that the browser tests start. */
export const officeToken = process.env.HALFPOINT_OFFICE_TOKEN ?? 'the-office-of-the-browser-tests';

const headers = { Authorization: `Bearer ${officeToken}` };

export interface Person {
  contest: string;
  name: string;
  email: string;
  password: string;
}

/** The secret of a link that gives a role in a contest; in the demonstration's where none is named. A pilot's is one of its pilots'. */
export async function invitation(
  page: Page,
  role: string,
  of = '',
  pilot = '',
): Promise<{ contest: string; link: string }> {
  const contest: string = of || (await demoContest(page));
  const made = await page.request.post(`/api/v1/contests/${contest}/invitations`, {
    headers,
    data: { role, ...(pilot ? { pilot } : {}) },
  });
  expect(made.status()).toBe(201);
  return { contest, link: (await made.json()).link };
}

/** Signs the page's browser in as somebody new who has a role in a contest. */
export async function signIn(page: Page, role = 'office', of = '', pilot = ''): Promise<Person> {
  const { contest, link } = await invitation(page, role, of, pilot);
  const email = `${randomUUID()}@example.org`;
  const account = { email, name: 'Mara Quist', password: 'a crow on every fence post' };
  const accepted = await page.request.post('/api/v1/invitations/acceptance', { data: { link, account } });
  expect(accepted.status()).toBe(201);
  await page.addInitScript((name) => localStorage.setItem('halfpoint.name', name), account.name);
  return { contest, ...account };
}
