import { realpathSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';

// The service that `npm run dev` talks to.
const service = process.env.HALFPOINT_URL ?? 'http://127.0.0.1:8080';

/** What a tablet of the line keeps of the pages, so that they load without a network. */
const offline = VitePWA({
  registerType: 'prompt', // never another program under a judge's hands
  injectRegister: false, // only the line's pages register it
  manifest: {
    name: 'Halfpoint',
    short_name: 'Halfpoint',
    description: 'Judging and scoring of aerobatic contests: the line',
    start_url: '/line',
    display: 'standalone',
    background_color: '#fbfaf7',
    theme_color: '#fbfaf7',
    icons: [{ src: '/icon.svg', sizes: 'any', type: 'image/svg+xml' }],
  },
  workbox: {
    globPatterns: ['**/*.{js,css,html,svg,woff2}'],
    navigateFallback: '/index.html',
    navigateFallbackAllowlist: [/^\/line$/, /^\/pair$/],
    clientsClaim: true,
    cleanupOutdatedCaches: true,
    // The server gives every file under assets a name by its content.
    dontCacheBustURLsMatching: /^assets\//,
  },
});

export default defineConfig({
  plugins: [svelte(), svelteTesting(), offline],
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
