import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { get } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, type BrowserContext } from '@playwright/test';

const port = 8095;
const name = 'judging.test';
const url = `https://${name}:${port}`;

let folder: string;
let service: ChildProcess;

test.beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'halfpoint-tls-'));
  chmodSync(folder, 0o711); // run as root, Postgres has a user of its own, who must get through
  const args = ['serve', '--tls-own', name, '--listen', `127.0.0.1:${port}`, '--log', 'error'];
  service = spawn('../bin/halfpoint', [...args, '--data', join(folder, 'data')], { stdio: 'inherit' });
  await expect.poll(isReady, { timeout: 60_000 }).toBe(true);
});
test.afterAll(async () => {
  const ended = new Promise((resolve) => service.once('exit', resolve));
  service.kill('SIGTERM');
  await ended;
  rmSync(folder, { recursive: true, force: true });
});

/** Asks as a program that trusts nothing yet. */
function isReady(): Promise<boolean> {
  return new Promise((resolve) => {
    const asked = get({ host: '127.0.0.1', port, path: '/readyz', rejectUnauthorized: false }, (answer) =>
      resolve(answer.resume().statusCode === 200),
    );
    asked.on('error', () => resolve(false));
  });
}

/** Makes the certificate in a file one that the browsers of a home folder trust. */
function trust(home: string, file: string): void {
  const store = join(home, '.pki/nssdb');
  mkdirSync(store, { recursive: true });
  execFileSync('certutil', ['-N', '-d', `sql:${store}`, '--empty-password']);
  execFileSync('certutil', ['-A', '-d', `sql:${store}`, '-n', 'halfpoint', '-t', 'C,,', '-i', file]);
}

test('a tablet that trusts the certificate of the service has all that HTTPS gives', async ({
  playwright,
}, info) => {
  const launch = info.project.use.launchOptions ?? {};
  const home = join(folder, 'home');
  const start = (): Promise<BrowserContext> =>
    playwright.chromium.launchPersistentContext(join(home, 'browser'), {
      executablePath: launch.executablePath ?? '',
      args: [...(launch.args ?? []), `--host-resolver-rules=MAP ${name} 127.0.0.1`],
      env: { ...process.env, HOME: home },
    });

  let tablet = await start();
  await expect((await tablet.newPage()).goto(url)).rejects.toThrow('ERR_CERT_AUTHORITY_INVALID');
  await tablet.close();

  trust(home, join(folder, 'data/tls/own/authority.pem'));
  tablet = await start();
  const page = await tablet.newPage();
  await page.goto(`${url}/trust`);
  await expect(page.getByRole('img', { name: /QR code/ })).toBeVisible();
  await expect(page.locator('.fingerprint span')).toHaveCount(32);
  const shown = await page.locator('.fingerprint span').allInnerTexts();
  const authority = new X509Certificate(readFileSync(join(folder, 'data/tls/own/authority.pem')));
  expect(shown.join(':')).toBe(authority.fingerprint256);

  await page.goto(`${url}/line`);
  await expect(page.getByText('This browser is not paired with a contest.')).toBeVisible();
  expect(await page.evaluate(() => isSecureContext && 'locks' in navigator)).toBe(true);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await tablet.setOffline(true);
  await page.reload();
  await expect(page.getByText('This browser is not paired with a contest.')).toBeVisible();
  await tablet.close();
});
