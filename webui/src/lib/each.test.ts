import { expect, it } from 'vitest';
import { each } from './each';

it('works on so many at once, and answers in the order of the list', async () => {
  const open: (() => void)[] = [];
  const asked: number[] = [];
  const all = each([10, 20, 30], 2, async (one) => {
    asked.push(one);
    await new Promise<void>((resolve) => open.push(resolve));
    return one + 1;
  });
  expect(asked).toEqual([10, 20]);
  open[1]?.();
  await expect.poll(() => asked).toEqual([10, 20, 30]);
  open[2]?.();
  open[0]?.();
  expect(await all).toEqual([11, 21, 31]);
});

it('throws what went wrong', async () => {
  await expect(each([1, 2], 2, (one) => Promise.reject(new Error(`no ${one}`)))).rejects.toThrow('no 1');
});
