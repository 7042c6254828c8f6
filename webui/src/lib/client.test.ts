import { expect, it } from 'vitest';
import { Failure, got } from './client';

const answer = (status: number, rest: object = {}) =>
  got<string>(Promise.resolve({ ...rest, response: new Response(null, { status }) }));

it('hands on what the answer carries', async () => {
  await expect(answer(200, { data: 'x' })).resolves.toBe('x');
});

it.each([
  [400, 'missing', false],
  [403, 'missing', false],
  [404, 'missing', false],
  [409, 'refused', false],
  [429, 'refused', true],
  [500, 'refused', true],
])('takes %i for %s', async (status, kind, passing) => {
  const failure = await answer(status, { error: { title: 'a', detail: 'in words' } }).catch(
    (thrown) => thrown,
  );
  expect(failure).toBeInstanceOf(Failure);
  expect(failure).toMatchObject({ kind, detail: 'in words', passing });
});

it('takes a broken connection for an absent server', async () => {
  const failure = await got<string>(Promise.reject(new TypeError('failed'))).catch(
    (thrown: Failure) => thrown,
  );
  expect(failure).toMatchObject({ kind: 'away', passing: true });
});
