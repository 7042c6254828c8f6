import { describe, expect, it } from 'vitest';
import { correction, places, rowsOf, type Places } from './still';

const at = (...tops: [string, number][]): Places => new Map(tops);
const view = { height: 300, scrolled: 500 };

describe('correction', () => {
  it('follows the rows in view when a row comes in above them', () => {
    const before = at(['a', -50], ['b', 50], ['c', 150]);
    const after = at(['new', -50], ['a', 50], ['b', 150], ['c', 250]);
    expect(correction(before, after, view)).toBe(100);
  });

  it('stays when one row in view leaves and the others hardly move', () => {
    const before = at(['a', 0], ['b', 100], ['c', 200]);
    const after = at(['c', -800], ['a', 0], ['b', 100]);
    expect(correction(before, after, view)).toBe(0);
  });

  it('follows the row with the focus wherever it goes', () => {
    const before = at(['a', 0], ['b', 100], ['c', 200]);
    const after = at(['c', 0], ['a', 100], ['b', 200]);
    expect(correction(before, after, view, 'c')).toBe(-200);
  });

  it('does nothing for a reader at the top of the page', () => {
    expect(correction(at(['a', 100]), at(['a', 200]), { height: 300, scrolled: 0 })).toBe(0);
  });

  it('does nothing where no row was in view', () => {
    expect(correction(at(['a', -900]), at(['a', -800]), view)).toBe(0);
    expect(correction(at(['a', 10]), at(), view, 'a')).toBe(0);
  });
});

it('reads rows by their key', () => {
  document.body.innerHTML = '<ul><li data-key="x"></li><li></li><li data-key="y"></li></ul>';
  expect(rowsOf(document.body)).toHaveLength(2);
  expect([...places(document.body).keys()]).toEqual(['x', 'y']);
});
