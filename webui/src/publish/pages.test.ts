import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { whoIs } from '../lib/fixtures/who';
import { me } from '../lib/me.svelte';
import FileProtest from './FileProtest.svelte';
import Needs from './Needs.svelte';
import Publish from './Publish.svelte';
import type { Preview } from './service';
import type { Summary } from '../published/types';

let answers: Record<string, unknown>;
let sent: { path: string; body: unknown }[];

beforeEach(() => {
  answers = {};
  sent = [];
  me.is(whoIs({ roles: [{ contest: { id: 'c1', name: 'Lindholm Open' }, role: 'director' }] }));
  vi.stubGlobal('fetch', async (asked: Request | string) => {
    const request = asked instanceof Request ? asked : undefined;
    const { pathname, search } = new URL(request?.url ?? String(asked), location.href);
    if (pathname.endsWith('/events')) return new Response(new ReadableStream());
    if (request?.method === 'POST') sent.push({ path: pathname, body: await request.clone().json() });
    const answer = answers[pathname + search] ?? answers[pathname];
    return answer
      ? Response.json(answer)
      : Response.json({ title: 'not here', status: 404 }, { status: 404 });
  });
});
afterEach(() => {
  cleanup();
  me.isNobody();
  localStorage.clear();
  vi.unstubAllGlobals();
});

const preview = (change: Partial<Preview> = {}): Preview => ({
  head: { epoch: 'e', version: 1 },
  contest: { id: 'c1', name: 'Lindholm Open' },
  opened: 'published',
  category: { id: 'k1', name: 'Sportsman' },
  programme: { id: 'p1', name: 'Known' },
  counting: { counts: true, abandoned: false, reason: '' },
  same: false,
  programmes: [],
  standing: [],
  teams: [],
  changes: [],
  refusals: [],
  ...change,
});

describe('publishing', () => {
  const next = '/api/v1/programmes/p1/publications/next';

  it('says what keeps results from becoming official, and publishes them for a reason', async () => {
    answers[`${next}?state=provisional`] = preview();
    answers[`${next}?state=official`] = preview({
      refusals: [{ text: 'the time for protests runs', final: false }],
    });
    render(Publish, { of: 'programme', id: 'p1' });
    expect(await screen.findByText('Nothing keeps it from being published.')).toBeTruthy();
    await fireEvent.click(screen.getByLabelText('official'));
    expect(await screen.findByText('the time for protests runs')).toBeTruthy();
    await fireEvent.input(screen.getByLabelText('Reason'), { target: { value: 'All agreed.' } });
    await fireEvent.click(screen.getByRole('button', { name: 'Publish as official' }));
    await vi.waitFor(() =>
      expect(sent).toEqual([
        { path: '/api/v1/programmes/p1/publications', body: { state: 'official', reason: 'All agreed.' } },
      ]),
    );
  });

  it('says that nobody would see it of a contest that is closed, and where that is changed', async () => {
    answers[`${next}?state=provisional`] = preview({ opened: 'closed' });
    render(Publish, { of: 'programme', id: 'p1' });
    expect(await screen.findByText(/Nobody but its officials may see/)).toBeTruthy();
    const way = screen.getByRole('link', { name: 'Say in the set-up who may' });
    expect(way.getAttribute('href')).toBe('/contests/c1/setup');
  });

  it('is the director’s alone', async () => {
    me.isNobody();
    answers[next] = preview();
    render(Publish, { of: 'programme', id: 'p1' });
    expect(await screen.findByText(/Only the contest director publishes/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: /Publish/ })).toBeNull();
  });
});

it('a protest that is written and not filed is there after a reload', async () => {
  answers['/api/v1/programmes/p1/protests'] = {};
  const protest_until = new Date(Date.now() + 3_600_000).toISOString();
  const last = { id: 'u1', number: 1, state: 'provisional', protest_until } as Summary;
  const filed = vi.fn(() => Promise.resolve());
  const form = { programme: 'p1', pilots: [{ id: 'q1', name: 'Mara Quist' }], last, filed };
  const text = () => screen.getByLabelText<HTMLTextAreaElement>('What is protested, and why');
  const first = render(FileProtest, form);
  await fireEvent.input(text(), { target: { value: 'The third figure was flown.' } });
  await screen.findByText('Not filed yet; kept on this device.');
  first.unmount();
  render(FileProtest, form);
  expect(text().value).toBe('The third figure was flown.');
  await fireEvent.click(screen.getByRole('button', { name: 'File the protest' }));
  await screen.findByText(/The protest is filed/);
  expect(text().value).toBe('');
  expect(sent.map(({ body }) => body)).toEqual([{ pilot: 'q1', text: 'The third figure was flown.' }]);
  const drafts = Object.keys(localStorage).filter((name) => name.startsWith('halfpoint.text.'));
  expect([filed.mock.calls.length, drafts]).toEqual([1, []]);
});

it('what needs the office leads to where it is done', async () => {
  answers['/api/v1/contests/c1/needs'] = {
    head: { epoch: 'e', version: 1 },
    contest: { id: 'c1', name: 'Lindholm Open' },
    more: 0,
    needs: [
      {
        kind: 'sheet',
        urgency: 'now',
        of: 'Sportsman · Known',
        text: 'seat 3 has not signed',
        link: '/flights/f1/paper',
      },
    ],
  };
  render(Needs, { id: 'c1' });
  const link = await screen.findByRole('link', { name: /seat 3 has not signed/ });
  expect(link.getAttribute('href')).toBe('/flights/f1/paper');
});
