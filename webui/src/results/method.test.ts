import { expect, it } from 'vitest';
import { methodLine, methodNotes } from './method';

it('names the method and its seats', () => {
  expect(methodLine({ name: 'consensus', fallback: '', seats: 7 })).toBe('consensus of 7 seats');
  expect(methodLine({ name: 'mean', fallback: '', seats: 1 })).toBe('mean of 1 seat');
});

it('says first that another method was used, and explains the one used', () => {
  const method = { name: 'consensus', fallback: 'mean', seats: 3 };
  expect(methodLine(method)).toBe('mean of 3 seats');
  const [why, how] = methodNotes(method);
  expect(why).toContain('The consensus needs more');
  expect(how).toContain('the mean of the panel’s grades');
});

it('passes a method that it does not know on as it is written', () => {
  const method = { name: 'newer', fallback: '', seats: 5 };
  expect(methodLine(method)).toBe('newer of 5 seats');
  expect(methodNotes(method)).toEqual([]);
});
