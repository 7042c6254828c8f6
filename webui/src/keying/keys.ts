/** What is typed for a grade, without a mouse and on a number pad alone. */

/** The keys of the number pad that stand for what is no number. */
export const padKeys = [
  { key: '/', code: 'HZ' },
  { key: '*', code: 'PZ' },
  { key: '-', code: 'A' },
] as const;

const codes: Record<string, string> = {
  H: 'HZ',
  HZ: 'HZ',
  P: 'PZ',
  PZ: 'PZ',
  A: 'A',
  '/': 'HZ',
  '*': 'PZ',
  '-': 'A',
};

/**
 * The grade that a text stands for: `7.5`, `7,5` and `75` are all `7.5`, `8` is
 * `8.0` and `10` is `10.0`. Nothing typed is ''; what is no grade is undefined.
 */
export function gradeOf(text: string): string | undefined {
  const typed = text.trim().toUpperCase().replace(',', '.');
  if (typed === '') return '';
  if (Object.hasOwn(codes, typed)) return codes[typed];
  if (!/^\d{1,3}$|^\d{1,2}\.\d?$/.test(typed)) return undefined;
  const value = withoutPoint(typed) ? Number(typed) / 10 : Number(typed);
  return value <= 10 && Number.isInteger(value * 2) ? value.toFixed(1) : undefined;
}

/** Two digits and more are read with a point before the last, but ten is ten. */
function withoutPoint(typed: string): boolean {
  return /^\d{2,3}$/.test(typed) && typed !== '10';
}
