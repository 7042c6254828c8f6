import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ahead } from './ahead';
import { match } from './lib/router';

it.each(Object.entries(ahead))('%s is an address of a page that there is', (path, { page }) => {
  expect(match(path.replace('{id}', 'x').replace('{page}', 'pilots')).name).not.toBe('nowhere');
  expect(page === undefined || existsSync(`src/${page}.svelte`)).toBe(true);
});
