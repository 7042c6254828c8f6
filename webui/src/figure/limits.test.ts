import { describe, expect, it } from 'vitest';
import { formOf, limitsOf, parseLimits } from './limits';
import type { Limits } from './types';

describe('limits', () => {
  const all: Limits = {
    max_figures: 10,
    min_figures: 5,
    max_k: 310.5,
    k_tolerance: 5,
    max_turns: 1.25,
    repeat_allowed: ['9.1.', '9.10.'],
    require: [{ any: ['5.', '6.'], least: 1, most: 2 }],
    forbid: ['9.12.'],
  };

  it('come out of the form as they went in', () => {
    expect(limitsOf(formOf(all))).toEqual(all);
    expect(limitsOf(formOf({ repeat_allowed: true }))).toEqual({ repeat_allowed: true });
    expect(limitsOf(formOf({}))).toEqual({});
  });

  it('of 0 are none', () => {
    expect(limitsOf(formOf({ max_k: 0, repeat_allowed: false }))).toEqual({});
  });

  it('are read with a comma in a number, and with any space between prefixes', () => {
    const form = formOf({});
    form.numbers.max_k = '310,5';
    form.forbid = ' 9.1.,9.2.;  9.3. ';
    expect(limitsOf(form)).toEqual({ max_k: 310.5, forbid: ['9.1.', '9.2.', '9.3.'] });
  });

  it('are an object, and nothing else', () => {
    expect(parseLimits('{"max_k": 5}')).toEqual({ max_k: 5 });
    for (const text of ['[]', 'null', '5', '{']) expect(() => parseLimits(text)).toThrow(SyntaxError);
  });
});
