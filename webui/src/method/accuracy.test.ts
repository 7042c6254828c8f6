import { expect, it } from 'vitest';
import { accuracyTables } from './accuracy';

it('finds the tables of the study in the document', () => {
  const tables = accuracyTables();
  expect(tables.map(({ title }) => title)).toEqual([
    "Mean rank error (places), in brackets as a share of the mean's",
    "Kendall's τ to the truth",
    'Coverage of the 90 % rank intervals',
  ]);
  for (const { heads, rows } of tables) {
    expect(heads).toEqual(['scenario', 'mean', 'trimmed-mean', 'normalised', 'consensus', 'limit']);
    expect(rows.length).toBe(6);
    expect(
      rows.flatMap((row) => row.slice(1)).every((cell) => /^\d\.\d{3}( \(\d\.\d\d\))?$/.test(cell)),
    ).toBe(true);
  }
});
