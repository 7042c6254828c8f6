/** The contest of the demonstration, which the browser tests share. */

import { expect, type APIRequestContext, type Page } from '@playwright/test';

/** Its id: other tests make contests beside it. */
export async function demoContest({ request }: Page | { request: APIRequestContext }): Promise<string> {
  const { contests } = await (await request.get('/api/v1/contests')).json();
  const found = contests.find((one: { name: string }) => one.name === 'Tarn Valley Cup');
  expect(found, 'the contest of the demonstration').toBeDefined();
  return found.id;
}
