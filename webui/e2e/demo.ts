/** The contest of the demonstration, which the browser tests share. */

import { spawn, type ChildProcess } from 'node:child_process';
import { expect, test, type APIRequestContext, type Page } from '@playwright/test';

type Asking = Page | { request: APIRequestContext };

/** What the service answers at a path: `contests/7`. */
export async function read({ request }: Asking, path: string, headers: Record<string, string> = {}) {
  return (await request.get(`/api/v1/${path}`, { headers })).json();
}

/** Its id: other tests make contests beside it. */
export async function demoContest(page: Asking): Promise<string> {
  const { contests } = await read(page, 'contests');
  const found = contests.find((one: { name: string }) => one.name === 'Tarn Valley Cup');
  expect(found, 'the contest of the demonstration').toBeDefined();
  return found.id;
}

/** A demonstration of a test's own, which starts when the test does and goes on for longer. */
export class Demo {
  readonly url: string;
  #process: ChildProcess | undefined;

  constructor(
    private readonly port: number,
    /** What its program is told beside what this one was. */
    private readonly environment: Record<string, string> = {},
  ) {
    this.url = `http://127.0.0.1:${port}`;
  }

  async start(): Promise<void> {
    const args = ['demo', '--listen', `127.0.0.1:${this.port}`, '--speed', '8'];
    const env = { ...process.env, ...this.environment };
    this.#process = spawn('../bin/halfpoint', args, { env, stdio: ['ignore', 'ignore', 'inherit'] });
    // It answers before it has made its contest.
    const ready = async () => (await (await fetch(`${this.url}/api/v1/contests`)).json()).contests.length > 0;
    await expect.poll(() => ready().catch(() => false), { timeout: 60_000 }).toBe(true);
  }

  /** Ends it, where it was not ended before. */
  async stop(): Promise<void> {
    const running = this.#process;
    if (!running) return;
    this.#process = undefined;
    const ended = new Promise((resolve) => running.once('exit', resolve));
    running.kill('SIGTERM');
    await ended;
  }
}

/** A demonstration for all tests of a file: still flown however long other files took, and one that they may stop. */
export function demoForAll(port: number, environment: Record<string, string> = {}): Demo {
  const demo = new Demo(port, environment);
  test.use({ baseURL: demo.url });
  test.beforeAll(async () => {
    await demo.start();
  });
  test.afterAll(() => demo.stop());
  return demo;
}

/** Pages that carry none of the service's answers, as where these come too late: they ask for all by themselves. */
export async function withoutAnswers(page: Page): Promise<void> {
  await page.route('**/*', async (route) => {
    if (route.request().resourceType() !== 'document') return route.fallback();
    const response = await route.fetch();
    const body = (await response.text()).replace(/<script type="application\/json"[^]*?<\/script>/g, '');
    await route.fulfill({ response, body });
  });
}
