import { defineConfig } from '@playwright/test';
import { officeToken } from './e2e/office';

/** A server already running; without one the demonstration is started here. */
const given = process.env.HALFPOINT_URL;
const own = 'http://127.0.0.1:8093';

const asRoot = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export default defineConfig({
  testDir: 'e2e',
  workers: 1,
  // Ends of patience, not paces: a busy machine takes its time, and a test that passes waits for none of it.
  timeout: 120_000,
  expect: { timeout: 20_000 },
  forbidOnly: Boolean(process.env.CI),
  reporter: [['list']],
  use: {
    baseURL: given ?? own,
    launchOptions: {
      executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
      args: asRoot,
    },
  },
  ...(given
    ? {}
    : {
        webServer: {
          // At a contest's own pace its flights are still to be flown when the last test runs.
          command: '../bin/halfpoint demo --listen 127.0.0.1:8093 --speed 1',
          env: { HALFPOINT_OFFICE_TOKEN: officeToken },
          url: `${own}/readyz`,
          timeout: 120_000,
          gracefulShutdown: { signal: 'SIGTERM', timeout: 10_000 },
        },
      }),
});
