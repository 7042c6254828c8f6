import { defineConfig } from '@playwright/test';
import tests from './playwright.config';

/** What is measured and not tested: `npm run bench`, on a machine that has nothing else to do. */
export default defineConfig({
  testDir: 'bench',
  workers: 1,
  reporter: [['list']],
  use: tests.use ?? {},
});
