/** Codes of programmes stand in their category's weights and tie break, and change there too. */

import type { Desk } from './desk.svelte';
import type { Category, Programme } from './types';

/** Renames in every category the programmes whose codes were changed. */
export function renameInCombinations({ lists }: Desk): void {
  for (const category of lists.categories.shown) {
    const renamed = new Map(
      Object.values(lists.programmes.drafts).flatMap(({ from, row }) => renaming(category, from, row)),
    );
    const { weights, tie_break } = category.combine;
    const named = [...Object.keys(weights), ...tie_break];
    if (!named.some((code) => renamed.has(code))) continue;
    const next = (code: string) => renamed.get(code) ?? code;
    const combine = {
      ...category.combine,
      weights: Object.fromEntries(Object.entries(weights).map(([code, weight]) => [next(code), weight])),
      tie_break: tie_break.map(next),
    };
    lists.categories.put({ ...category, combine });
  }
}

function renaming(category: Category, from: Programme | undefined, row: Programme): [string, string][] {
  if (!from || from.category !== category.id || from.code === row.code) return [];
  return [[from.code, row.code]];
}
