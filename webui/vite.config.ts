import { realpathSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';

// The service that `npm run dev` talks to.
const service = process.env.HALFPOINT_URL ?? 'http://127.0.0.1:8080';

/** The scripts and styles that the line's pages load, by their names in the build. */
const ofTheLine = new Set<string>();

/** Finds them: what is loaded first, what each page of the line is, and all that these load. */
const findLine: Plugin = {
  name: 'halfpoint-line',
  generateBundle(_, bundle) {
    const add = (name: string) => {
      const chunk = bundle[name];
      if (chunk?.type !== 'chunk' || ofTheLine.has(name)) return;
      ofTheLine.add(name);
      chunk.viteMetadata?.importedCss.forEach((style) => ofTheLine.add(style));
      chunk.imports.forEach(add);
    };
    for (const [name, file] of Object.entries(bundle)) {
      if (file.type !== 'chunk') continue;
      if (file.isEntry || file.facadeModuleId?.includes('/src/line/')) add(name);
    }
  },
};

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
    manifestTransforms: [
      (files) => ({
        manifest: files.filter(({ url }) => !/^assets\/.*\.(js|css)$/.test(url) || ofTheLine.has(url)),
        warnings: [],
      }),
    ],
    navigateFallback: '/index.html',
    navigateFallbackAllowlist: [/^\/line$/, /^\/pair$/],
    clientsClaim: true,
    cleanupOutdatedCaches: true,
    // The server gives every file under assets a name by its content.
    dontCacheBustURLsMatching: /^assets\//,
  },
});

export default defineConfig({
  plugins: [svelte(), svelteTesting(), findLine, offline],
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
