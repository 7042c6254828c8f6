import { realpathSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { defineConfig } from 'vitest/config';

// The service that `npm run dev` talks to.
const service = process.env.HALFPOINT_URL ?? 'http://127.0.0.1:8080';

export default defineConfig({
  plugins: [svelte(), svelteTesting()],
  build: {
    target: 'es2022',
    // The server's content policy allows no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: {
    proxy: { '/api': { target: service, changeOrigin: true } },
    // A second checkout may share the first one's packages by a link.
    fs: { allow: ['.', realpathSync('node_modules')] },
  },
  test: {
    environment: 'jsdom',
    isolate: false,
    include: ['src/**/*.test.ts'],
    setupFiles: ['src/lib/test-setup.ts'],
    // Long enough for a machine that is busy with other things.
    testTimeout: 30_000,
  },
});
