/**
 * Remarks as they are tapped: short words, and letters for where in the box the
 * figure was. One remark holds both, a comma between any two.
 */

/** Off to one side of the box; said twice where it was much too far. */
export const places = ['left', 'right', 'near', 'far'] as const;
export type Place = (typeof places)[number];

/** How a place is written in a remark: `L`, or `LL` for much too far. */
const letters: Record<Place, string> = { left: 'L', right: 'R', near: 'N', far: 'F' };

/** The parts of a remark. */
export const partsOf = (remark: string): string[] =>
  remark
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '');

const written = (parts: readonly string[]): string => parts.join(', ');

/** How often a place is said in a remark: 0, 1 or 2. */
export function said(remark: string, place: Place): number {
  const parts = partsOf(remark);
  const letter = letters[place];
  return parts.includes(letter + letter) ? 2 : parts.includes(letter) ? 1 : 0;
}

/** The remark with a place said once more, or no more after the second time. */
export function withPlace(remark: string, place: Place): string {
  const letter = letters[place];
  const rest = partsOf(remark).filter((part) => part !== letter && part !== letter + letter);
  const times = (said(remark, place) + 1) % 3;
  return written(times === 0 ? rest : [...rest, letter.repeat(times)]);
}

/** The remark with a word added, or taken away where it is there. */
export function withWord(remark: string, word: string): string {
  const parts = partsOf(remark);
  return written(parts.includes(word) ? parts.filter((part) => part !== word) : [...parts, word]);
}

/** How many letters all remarks have together. */
export const tally = (remarks: readonly string[]): number =>
  remarks.reduce((sum, remark) => sum + places.reduce((n, place) => n + said(remark, place), 0), 0);

/** The positioning mark that the letters come to: 10 less half a point a letter. */
export function offered(count: number): string {
  return Math.max(0, 10 - count / 2).toFixed(1);
}

/** An overall mark for where in the box the flight was. */
export const isPositioning = (name: string): boolean => /position/i.test(name);
