/** The fields of a row by their places: `name`, `combine.team_best`. */

import type { Row } from './types';

/** What counts in no comparison, or is no field of one's own. */
const apart = new Set(['id', 'revision', 'remove']);

/** What is held apart field by field inside a row. */
const parts = new Set(['combine', 'method']);

/** The places of all fields that somebody can change. */
export function places(row: object, within = ''): string[] {
  return Object.entries(row).flatMap(([name, value]) => {
    if (within === '' && apart.has(name)) return [];
    return within === '' && parts.has(name) ? places(value, `${name}.`) : [within + name];
  });
}

/** What stands in a field. */
export function read(row: object, place: string): unknown {
  return place
    .split('.')
    .reduce<unknown>((at, name) => (at as Record<string, unknown> | undefined)?.[name], row);
}

/** The row with another value in a field. */
export function write<R extends object>(row: R, place: string, value: unknown): R {
  const [name = '', ...rest] = place.split('.');
  if (rest.length === 0) return { ...row, [name]: value };
  const part = (row as Record<string, unknown>)[name] as object;
  return { ...row, [name]: write(part, rest.join('.'), value) };
}

/** Whether two values are the same, whatever order their fields stand in. */
export function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const [as, bs] = [Object.entries(a), Object.entries(b)];
  return as.length === bs.length && as.every(([name, value]) => same(value, (b as typeof a)[name as never]));
}

/** Whether nobody would see a difference between two rows. */
export const alike = (a: Row, b: Row): boolean =>
  places(a).every((place) => same(read(a, place), read(b, place)));
