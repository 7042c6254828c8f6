import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Pace } from './pace';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it('acts at once, then once for all that was asked meanwhile', () => {
  const act = vi.fn();
  const pace = new Pace(3000, act);
  for (let i = 0; i < 10; i++) pace.ask();
  expect(act).toHaveBeenCalledTimes(1);
  vi.advanceTimersByTime(3000);
  expect(act).toHaveBeenCalledTimes(2);
  vi.advanceTimersByTime(60_000);
  expect(act).toHaveBeenCalledTimes(2);
});

it('acts at once again after a quiet time', () => {
  const act = vi.fn();
  const pace = new Pace(3000, act);
  pace.ask();
  vi.advanceTimersByTime(3000);
  pace.ask();
  expect(act).toHaveBeenCalledTimes(2);
});

it('does nothing after it was stopped', () => {
  const act = vi.fn();
  const pace = new Pace(3000, act);
  pace.ask();
  pace.ask();
  pace.stop();
  vi.advanceTimersByTime(60_000);
  expect(act).toHaveBeenCalledTimes(1);
});
