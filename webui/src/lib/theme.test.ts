import { afterEach, expect, it } from 'vitest';
import { choose, chosen } from './theme';

afterEach(() => localStorage.clear());

const shown = () => document.documentElement.dataset.theme;

it('shows and keeps a choice', () => {
  choose('sun');
  expect([shown(), chosen()]).toEqual(['sun', 'sun']);
});

it('goes back to the device', () => {
  choose('dark');
  choose('device');
  expect([shown(), chosen(), localStorage.length]).toEqual(['light', 'device', 0]);
});

it('does not take over a word it does not know', () => {
  localStorage.setItem('halfpoint.theme', 'sepia');
  expect(chosen()).toBe('device');
});
