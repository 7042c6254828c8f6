import { existsSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ahead } from './ahead';
import { match } from './lib/router';

it.each(Object.entries(ahead))('%s is an address of a page that there is', (path, { page }) => {
  expect(match(path.replace('{id}', 'x').replace('{page}', 'pilots')).name).not.toBe('nowhere');
  expect(page === undefined || existsSync(`src/${page}.svelte`)).toBe(true);
});

/** The contract's paths with every parameter alike. */
const operations = [...readFileSync('../api/openapi.yaml', 'utf8').matchAll(/^ {2}(\/api\/v1\/\S+):$/gm)].map(
  ([, path]) => path?.replace(/\{\w+\}/g, '{}'),
);

it.each(Object.entries(ahead))('%s reads what the service has', (_, { reads }) => {
  const paths = reads.map((read) => '/api/v1/' + read.replace(/\?.*/, '').replace(/\{\w+\}/g, '{}'));
  expect(operations).toEqual(expect.arrayContaining(paths));
});
