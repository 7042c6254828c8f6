import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { ask } from './ask';
import { whoIs } from './fixtures/who';
import { me } from './me.svelte';
import { prompt } from './prompt.svelte';

let answers: Response[];
let sent: { method: string; body: string }[];

const problem = (status: number, kind: string) =>
  Response.json({ type: `/api/v1/docs#${kind}`, title: kind, status }, { status });
const request = () =>
  new Request('http://localhost/api/v1/contests', { method: 'POST', body: '{"name":"typed"}' });

beforeEach(() => {
  answers = [];
  sent = [];
  vi.stubGlobal('fetch', async (asked: Request) => {
    sent.push({ method: asked.method, body: await asked.text() });
    return answers.shift();
  });
});
afterEach(() => vi.unstubAllGlobals());

it('sends again what was typed, once somebody has signed in', async () => {
  answers = [problem(401, 'sign-in'), new Response('made', { status: 201 })];
  const asked = ask(request());
  await vi.waitFor(() => expect(prompt.wanted).toBe('sign-in'));
  prompt.answer(true);
  expect((await asked).status).toBe(201);
  expect(sent).toEqual([
    { method: 'POST', body: '{"name":"typed"}' },
    { method: 'POST', body: '{"name":"typed"}' },
  ]);
  expect(prompt.wanted).toBeUndefined();
});

it('asks for the password again, and then for nothing more', async () => {
  answers = [problem(403, 'password-again'), new Response(null, { status: 204 })];
  const asked = ask(request());
  await vi.waitFor(() => expect(prompt.wanted).toBe('password-again'));
  prompt.answer(true);
  expect((await asked).status).toBe(204);
});

it('hands on the refusal where the reader would not', async () => {
  answers = [problem(401, 'sign-in')];
  const asked = ask(request());
  await vi.waitFor(() => expect(prompt.wanted).toBe('sign-in'));
  prompt.answer(false);
  expect((await asked).status).toBe(401);
  expect(sent).toHaveLength(1);
});

it('asks once for all that wait for it', async () => {
  answers = [problem(401, 'sign-in'), problem(401, 'sign-in'), new Response('a'), new Response('b')];
  const all = Promise.all([ask(request()), ask(request())]);
  await vi.waitFor(() => expect(sent).toHaveLength(2));
  await vi.waitFor(() => expect(prompt.wanted).toBe('sign-in'));
  prompt.answer(true);
  expect((await all).map(({ status }) => status)).toEqual([200, 200]);
  expect(prompt.wanted).toBeUndefined();
});

it.each([
  [401, 'wrong-sign-in'],
  [403, 'refused'],
  [404, 'not-found'],
])('asks nothing about a %i of the kind %s', async (status, kind) => {
  answers = [problem(status, kind)];
  const answer = await ask(request());
  expect(answer.status).toBe(status);
  expect(await answer.json()).toMatchObject({ title: kind });
  expect(prompt.wanted).toBeUndefined();
});

it('forgets who was signed in when the session is over', async () => {
  me.is(whoIs());
  answers = [problem(401, 'sign-in')];
  const asked = ask(request());
  await vi.waitFor(() => expect(prompt.wanted).toBe('sign-in'));
  expect(me.name).toBe('');
  prompt.answer(false);
  await asked;
});
