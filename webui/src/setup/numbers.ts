/** Numbers as they are typed into a set-up. */

/** A number with a point or a comma; as typed where it is none, which is then complained of. */
export function typed(text: string): number | string {
  const plain = text.trim().replace(',', '.');
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : text;
}

/** The fields that hold numbers. */
const numeric = new Set([
  'points',
  'cut',
  'combine.team_best',
  'method.trim',
  'method.discard',
  'method.outlier',
  'method.lean',
  'method.group_min',
]);

export const isNumeric = (field: string): boolean =>
  numeric.has(field) || field.startsWith('combine.weights.');
