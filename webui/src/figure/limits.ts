/** The limits of a category as a form holds them: text as typed, and what it says. */

import { m } from '../lib/messages/figure';
import type { Limits } from './types';

/** The fields that are one number, in the order of the form. */
export const numberFields = {
  figures: ['max_figures', 'min_figures'],
  k: ['max_k', 'min_k', 'k_tolerance', 'max_figure_k'],
  rotations: ['max_turns', 'rotations_per_line'],
} as const;
export type NumberField = (typeof numberFields)[keyof typeof numberFields][number];
const allNumbers = Object.values(numberFields).flat() as NumberField[];

export interface RequireForm {
  any: string;
  least: string;
  most: string;
}

export interface LimitsForm {
  numbers: Record<NumberField, string>;
  repeat: 'none' | 'all' | 'some';
  repeatSome: string;
  require: RequireForm[];
  forbid: string;
}

const words = (text: string) => text.split(/[\s,;]+/).filter((part) => part !== '');
const number = (text: string) => Number(text.trim().replace(',', '.'));

/** Tells whether a field holds a number or nothing. */
export const isNumber = (text: string) => text.trim() === '' || Number.isFinite(number(text));

export function formOf(limits: Limits): LimitsForm {
  const { repeat_allowed: repeat, require = [], forbid = [] } = limits;
  const shown = (value: number | undefined) => (value ? String(value) : '');
  return {
    numbers: Object.fromEntries(
      allNumbers.map((name) => [name, shown(limits[name])]),
    ) as LimitsForm['numbers'],
    repeat: Array.isArray(repeat) ? 'some' : repeat ? 'all' : 'none',
    repeatSome: Array.isArray(repeat) ? repeat.join(' ') : '',
    require: require.map(({ any, least, most }) => ({
      any: any.join(' '),
      least: String(least ?? 1),
      most: shown(most),
    })),
    forbid: forbid.join(' '),
  };
}

/** What a form says; a field left empty, or no number, is left out. */
export function limitsOf(form: LimitsForm): Limits {
  const limits: Limits = {};
  for (const name of allNumbers) {
    const text = form.numbers[name];
    if (text.trim() !== '' && isNumber(text)) limits[name] = number(text);
  }
  if (form.repeat === 'all') limits.repeat_allowed = true;
  if (form.repeat === 'some') limits.repeat_allowed = words(form.repeatSome);
  const require = form.require.filter(({ any }) => any.trim() !== '').map(requirement);
  if (require.length > 0) limits.require = require;
  if (words(form.forbid).length > 0) limits.forbid = words(form.forbid);
  return limits;
}

function requirement({ any, least, most }: RequireForm) {
  const count = (text: string) => text.trim() !== '' && isNumber(text);
  return {
    any: words(any),
    least: count(least) ? number(least) : 1,
    ...(count(most) ? { most: number(most) } : {}),
  };
}

/** Reads limits from text; throws a `SyntaxError` where it is no JSON object. */
export function parseLimits(text: string): Limits {
  const value: unknown = JSON.parse(text);
  if (value === null || typeof value !== 'object' || Array.isArray(value)) {
    throw new SyntaxError(m.limits.noObject);
  }
  return value as Limits;
}

export const textOf = (limits: Limits) => JSON.stringify(limits, null, 2);
