import { realpathSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';
import { ahead } from './src/ahead';
import { ahead as words } from './src/lib/messages/ahead';

// The service that `npm run dev` talks to.
const service = process.env.HALFPOINT_URL ?? 'http://127.0.0.1:8080';

/** The scripts and styles that the line's pages load, by their names in the build. */
const ofTheLine = new Set<string>();

/** Where their words in other languages stand. */
const wordsOfTheLine = /\/src\/lib\/messages\/(?!en)[a-z]{2}(-line|-chief)?\.ts$/;

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
      const from = file.facadeModuleId ?? '';
      if (file.isEntry || from.includes('/src/line/') || wordsOfTheLine.test(from)) add(name);
    }
  },
};

/**
 * Writes for the server what each page is told to fetch ahead: `src/ahead.ts`, with the
 * names of the build; and the words with which it draws some of them.
 */
const findAhead: Plugin = {
  name: 'halfpoint-ahead',
  generateBundle(_, bundle) {
    const chunks = Object.values(bundle).filter((file) => file.type === 'chunk');
    const add = (files: Set<string>, one: (typeof chunks)[number]) => {
      if (files.has(one.fileName)) return files;
      files.add(one.fileName);
      one.viteMetadata?.importedCss.forEach((style) => files.add(style));
      chunks.filter(({ fileName }) => one.imports.includes(fileName)).forEach((below) => add(files, below));
      return files;
    };
    const first = chunks.filter(({ isEntry }) => isEntry).reduce(add, new Set<string>());
    const fonts = Object.keys(bundle).filter((name) => /-latin-(400|700)-normal-.*\.woff2$/.test(name));
    const pages = Object.entries(ahead).map(([path, { page, reads, drawn }]) => {
      const own = chunks.filter(({ moduleIds }) =>
        moduleIds.some((module) => module.endsWith(`/src/${page}.svelte`)),
      );
      const files = ['theme.js', ...own.reduce(add, new Set(first)), ...(drawn ? fonts : [])];
      return { path, files, reads, drawn };
    });
    const spoken = Object.entries(words).map(([language, words]) => ({ language, words }));
    this.emitFile({ type: 'asset', fileName: 'ahead.json', source: JSON.stringify(pages) });
    this.emitFile({ type: 'asset', fileName: 'words.json', source: JSON.stringify(spoken) });
  },
  transformIndexHtml: (html) => {
    const said = Object.entries(words).map(
      ([language, { noScript }]) => `<p lang="${language}">${noScript}</p>`,
    );
    return html.replace('<body>', `<body><noscript>${said.join('')}</noscript>`);
  },
};

/** What pages of several places of work load, beside what all of them do. */
const shared =
  /\/src\/(lib\/(?!messages\/)|lib\/messages\/(en-)?(line|refusal)\.|trust\/(certificate|SixWords)|results\/(items|tables)\.)|\/qr\/index\.js/;

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
  plugins: [svelte(), svelteTesting(), findLine, findAhead, offline],
  build: {
    target: 'es2022',
    // The server's content policy allows no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: {
        // Each request costs a browser more than the bytes of a small file: one script is loaded
        // first, and one for each place of work, with what its pages share.
        codeSplitting: {
          groups: [
            { name: 'first', tags: ['$initial'], priority: 5 },
            { name: 'shared', test: shared, priority: 4 },
            { name: 'sheet', test: /\/src\/results\/Sheet\.svelte$/, priority: 3 },
            { name: 'published', test: /\/src\/published\/(?!Sheets|OneSheet|sheets)/, priority: 2 },
            { name: 'setup', test: /\/src\/setup\//, priority: 1 },
            {
              name: (id) => /\/src\/(publish|order|keying|devices)\//.exec(id)?.[1] ?? null,
              debugName: 'places of work',
              priority: 1,
            },
          ],
        },
      },
    },
  },
  server: {
    proxy: { '/api': { target: service, changeOrigin: true } },
    // A second checkout may share the first one's packages by a link.
    fs: { allow: ['.', '../docs', realpathSync('node_modules')] },
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
