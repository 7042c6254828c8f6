/** A contest of its own for the tests of the line, on a service that they may kill. */

import { spawn, type ChildProcess } from 'node:child_process';
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, type Browser, type BrowserContext, type Page } from '@playwright/test';

const token = 'the-office-of-the-line-tests';

/** What stands in a bundle's file, or in a part of it. */
type Bundle = ReturnType<typeof JSON.parse>;

/** The service with a Postgres of its own, in a folder that goes with it. */
export class Office {
  readonly url: string;
  contest = '';
  /** What the program wrote. */
  said = '';
  #folder = '';
  #process: ChildProcess | undefined;

  constructor(private readonly port = 8094) {
    this.url = `http://127.0.0.1:${port}`;
  }

  get #data(): string {
    return join(this.#folder, 'data');
  }

  get #backup(): string {
    return join(this.#folder, 'backup');
  }

  async start(): Promise<void> {
    if (this.#folder === '') {
      this.#folder = mkdtempSync(join(tmpdir(), 'halfpoint-line-'));
      chmodSync(this.#folder, 0o711); // run as root, Postgres has a user of its own, who must get through
    }
    const args = ['serve', '--listen', `127.0.0.1:${this.port}`, '--data', this.#data, '--log', 'error'];
    const env = { ...process.env, HALFPOINT_OFFICE_TOKEN: token };
    this.#process = spawn('../bin/halfpoint', args, { env, stdio: ['ignore', 'pipe', 'inherit'] });
    this.#process.stdout?.on('data', (text: Buffer) => (this.said += text.toString()));
    for (;;) {
      const ready = await fetch(`${this.url}/readyz`).catch(() => undefined);
      if (ready?.ok) return;
      await new Promise((resolve) => setTimeout(resolve, 50)); // there is nothing to listen to yet
    }
  }

  /** Ends the service: politely, or as if the machine lost its power. */
  async stop(signal: 'SIGTERM' | 'SIGKILL'): Promise<void> {
    const ended = new Promise((resolve) => this.#process?.once('exit', resolve));
    this.#process?.kill(signal);
    await ended;
  }

  /** Postgres ends as if the system had killed it. */
  async killDatabase(): Promise<void> {
    const [pid] = readFileSync(join(this.#data, 'postgres', 'postmaster.pid'), 'utf8').split('\n');
    process.kill(Number(pid), 'SIGKILL');
    await expectGone(Number(pid));
  }

  /** Writes a backup, while the service goes on. */
  backUp(): Promise<void> {
    rmSync(this.#backup, { force: true });
    return this.#run('backup', this.#backup, '--data', this.#data);
  }

  /** The server is lost, and another one goes on from the last backup. */
  async restore(): Promise<void> {
    await this.stop('SIGTERM');
    rmSync(this.#data, { recursive: true });
    await this.#run('restore', this.#backup, '--data', this.#data);
    await this.start();
  }

  async #run(...args: string[]): Promise<void> {
    const child = spawn('../bin/halfpoint', args, { stdio: 'ignore' });
    const code = await new Promise((resolve) => child.once('exit', resolve));
    if (code !== 0) throw new Error(`halfpoint ${args[0]} ended with ${code}`);
  }

  remove(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }

  async ask<T>(path: string, body?: unknown, method = body === undefined ? 'GET' : 'POST'): Promise<T> {
    const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' };
    const sent = { method, ...(body === undefined ? {} : { body: JSON.stringify(body) }) };
    const response = await fetch(`${this.url}/api/v1/${path}`, { headers, ...sent });
    const text = await response.text();
    if (!response.ok) throw new Error(`${path}: ${response.status} ${text}`);
    return (text === '' ? undefined : JSON.parse(text)) as T;
  }

  /** Makes the contest: one programme of an invented one, still to be flown, which a test may change before. */
  async setUp(change: (programme: Bundle, bundle: Bundle) => void = () => {}): Promise<void> {
    const bundle = JSON.parse(readFileSync('../testdata/cases/101.bundle.json', 'utf8'));
    const [category] = bundle.categories;
    const [programme] = category.programmes;
    change(programme, bundle);
    programme.flights = programme.flights.map(({ id, pilot }: { id: string; pilot: string }) => ({
      id,
      pilot,
      status: 'scheduled',
    }));
    const first = { ...category, programmes: [programme], combine: undefined };
    const made = await this.ask<{ id: string }>('bundles', { ...bundle, categories: [first] });
    this.contest = made.id;
  }

  async judges(): Promise<{ id: string; name: string }[]> {
    const { categories } = await this.ask<{ categories: { programmes: { id: string }[] }[] }>(
      `contests/${this.contest}`,
    );
    const programme = categories[0]?.programmes[0]?.id;
    const { panel } = await this.ask<{ panel: { judge: { id: string; name: string } }[] }>(
      `programmes/${programme}`,
    );
    return panel.map(({ judge }) => judge);
  }

  offer(role: string, judge?: string): Promise<{ code: string; link: string }> {
    return this.ask(`contests/${this.contest}/pairings`, { role, ...(judge ? { judge } : {}) });
  }

  /** What the office has of a seat's sheet: the grades, and how it is signed. */
  async sheet(flight: string, judge: string): Promise<{ state: string; grades: string[]; records: number }> {
    interface Answer {
      state: string;
      cells: { grade: string; history: unknown[] }[];
    }
    const { state, cells } = await this.ask<Answer>(`flights/${flight}/sheets/${judge}`);
    const records = cells.reduce((sum, { history }) => sum + history.length, 0);
    return { state, grades: cells.map(({ grade }) => grade), records };
  }

  /** The id of a flight, by its number. */
  async flight(number: number): Promise<string> {
    const { categories } = await this.ask<{ categories: { programmes: { id: string }[] }[] }>(
      `contests/${this.contest}`,
    );
    const { flights } = await this.ask<{ flights: { id: string; number: number }[] }>(
      `programmes/${categories[0]?.programmes[0]?.id}/results`,
    );
    const found = flights.find((flight) => flight.number === number);
    if (!found) throw new Error(`no flight ${number}`);
    return found.id;
  }
}

/** An office for all tests of a file, which come one after the other; with a contest, or with what `setUp` makes. */
export function officeForAll(port?: number, setUp = (office: Office) => office.setUp()): Office {
  const office = new Office(port);
  test.describe.configure({ mode: 'serial' });
  test.beforeAll(async () => {
    await office.start();
    await setUp(office);
  });
  test.afterAll(async () => {
    await office.stop('SIGTERM');
    office.remove();
  });
  return office;
}

/** Waits for the end of a process that is not ours. */
async function expectGone(pid: number): Promise<void> {
  while (existsSync(`/proc/${pid}`)) await new Promise((resolve) => setTimeout(resolve, 10)); // nothing tells of it
}

/** Pairs a browser by the link that the office shows, and stays on its page. */
export async function pairByLink(page: Page, office: Office, role: string, judge?: string): Promise<void> {
  const { link } = await office.offer(role, judge);
  await page.goto(`${office.url}/pair#${link}`);
  await page.getByRole('button', { name: 'Pair this tablet' }).click();
  await page.waitForURL('**/line');
}

/** A tablet of ten inches, held upright or across. */
export const sizes = { across: { width: 1280, height: 800 }, upright: { width: 800, height: 1280 } };

/** A new tablet, held across, that is paired for a role. */
export async function paired(browser: Browser, office: Office, role: string, judge?: string): Promise<Page> {
  const page = await (await browser.newContext({ viewport: sizes.across, hasTouch: true })).newPage();
  await pairByLink(page, office, role, judge);
  return page;
}

/** Where a tablet says its one honest word. */
export const word = (page: Page) => page.getByTitle('About this tablet');

export const tap = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: true }).click();

/** The keys of a judge's tablet. */
export const keys = (page: Page) => page.getByRole('group', { name: 'Grades' });

/** Taps grades, each when the one before it is said back. */
export async function grade(page: Page, grades: string[]): Promise<void> {
  for (const one of grades) {
    await keys(page).getByRole('button', { name: one, exact: true }).click();
    await expect(
      page.locator('[role=status] b').or(page.getByRole('heading', { name: /^Sheet of/ })),
    ).toContainText(new RegExp(`^(${one}|Sheet.*)$`));
  }
}

/** What can be hit on the line is at least this wide and high, in pixels. */
const target = 72;

/** Everything to be hit that is too small for a glove. */
export function tooSmall(page: Page): Promise<string[]> {
  return page.evaluate((least) => {
    const all = [...document.querySelectorAll('button, input, select, a')];
    const bad = all.filter((one) => {
      const { width, height } = one.getBoundingClientRect();
      return width < least || height < least;
    });
    return bad.map((one) => one.getAttribute('aria-label') ?? one.textContent ?? '');
  }, target);
}

/** Everything to be hit that lies outside the screen. */
export function outside(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const all = [...document.querySelectorAll('button, input, select, a')];
    const bad = all.filter((one) => {
      const { right, bottom } = one.getBoundingClientRect();
      return right > innerWidth + 1 || bottom > innerHeight + 1;
    });
    return bad.map((one) => one.getAttribute('aria-label') ?? one.textContent ?? '');
  });
}

/** A tablet whose browser can be ended and started again with what it has kept. */
export class Tablet {
  #folder = mkdtempSync(join(tmpdir(), 'halfpoint-tablet-'));
  #context: BrowserContext | undefined;

  constructor(private readonly browser: Browser) {}

  async start(options: { executablePath: string; args: string[] }): Promise<Page> {
    const context = await this.browser
      .browserType()
      .launchPersistentContext(this.#folder, { ...options, viewport: sizes.across, hasTouch: true });
    this.#context = context;
    return context.pages()[0] ?? context.newPage();
  }

  get context(): BrowserContext {
    if (!this.#context) throw new Error('the tablet is off');
    return this.#context;
  }

  async end(): Promise<void> {
    await this.#context?.close();
  }

  remove(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }
}
