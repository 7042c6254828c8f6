import { expect, it } from 'vitest';
import type { LineDevice } from './device.svelte';
import { wordOf } from './word';

const said = (told: Partial<LineDevice>) =>
  wordOf({ waiting: 0, former: 0, refused: [], delivering: 'resting', reached: true, ...told } as LineDevice)
    .text;

it('says where what was entered is', () => {
  expect(said({})).toBe('all at the office');
  expect(said({ waiting: 1, delivering: 'sending' })).toBe('saved here');
  expect(said({ waiting: 2, delivering: 'failing' })).toBe('2 waiting');
  expect(said({ waiting: 2, reached: false })).toBe('2 waiting');
  expect(said({ former: 2 })).toBe('2 waiting');
  expect(said({ refused: [{} as LineDevice['refused'][number]] })).toBe('1 record not taken');
});
