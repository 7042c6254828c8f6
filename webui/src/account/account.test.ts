import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { whoIs } from '../lib/fixtures/who';
import { me } from '../lib/me.svelte';
import { prompt } from '../lib/prompt.svelte';
import Account from './Account.svelte';
import Ask from './Ask.svelte';
import { browserOf } from './browser';
import First from './First.svelte';
import Invitation from './Invitation.svelte';
import NewPassword from './NewPassword.svelte';
import People from './People.svelte';
import SignIn from './SignIn.svelte';

type Handler = (body: Record<string, unknown>) => Response;
let answers: Record<string, Handler>;
let sent: Record<string, unknown>[];

const contest = { id: 'c1', name: 'Lindholm Open' };
const who = whoIs({ roles: [{ contest, role: 'director' }] });
const problem = (status: number, kind: string, errors?: { pointer: string; message: string }[]) =>
  Response.json({ type: `/api/v1/docs#${kind}`, title: kind, status, errors }, { status });
const known = () => Response.json(who, { status: 201 });

beforeEach(() => {
  answers = {};
  sent = [];
  me.isNobody();
  window.scrollTo = () => {};
  vi.stubGlobal('fetch', async (asked: Request | string) => {
    const request = asked instanceof Request ? asked : new Request(new URL(asked, location.href));
    const text = await request.text();
    const body = text === '' ? {} : JSON.parse(text);
    sent.push(body);
    const { pathname } = new URL(request.url);
    return answers[`${request.method} ${pathname}`]?.(body) ?? problem(404, 'not-found');
  });
});
afterEach(() => {
  cleanup();
  prompt.answer(false);
  me.isNobody();
  vi.unstubAllGlobals();
});

const at = (path: string) => history.replaceState(null, '', path);
const fill = (label: string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));

describe('signing in', () => {
  it('says what is wrong, asks for a code where one is needed, and leads on', async () => {
    at('/sign-in?to=%2Fcontests%2Fc1');
    answers['POST /api/v1/sessions'] = ({ password, code }) => {
      if (password !== 'right') return problem(401, 'wrong-sign-in');
      if (!code) return problem(401, 'code-needed');
      return code === '123456' ? known() : problem(401, 'wrong-code');
    };
    render(SignIn);
    await fill('E-mail address', 'mara@example.org');
    await fill('Password', 'wrong');
    await press('Sign in');
    expect((await screen.findByRole('alert')).textContent).toContain('do not go together');
    await fill('Password', 'right');
    await press('Sign in');
    const code = await screen.findByLabelText('Code of your second factor');
    expect(document.activeElement).toBe(code);
    expect(screen.queryByRole('alert')).toBeNull();
    await fill('Code of your second factor', '000000');
    await press('Sign in');
    expect((await screen.findByRole('alert')).textContent).toContain('not the code');
    await fill('Code of your second factor', '123456');
    await press('Sign in');
    await vi.waitFor(() => expect(location.pathname).toBe('/contests/c1'));
    expect(me.name).toBe('Mara Quist');
    expect(sent.at(-1)).toEqual({ email: 'mara@example.org', password: 'right', code: '123456' });
  });

  it('uses a link at once, and takes it out of the address', async () => {
    at('/sign-in#the-secret');
    answers['POST /api/v1/sessions/by-link'] = known;
    render(SignIn);
    await vi.waitFor(() => expect(location.pathname).toBe('/office'));
    expect(sent[0]).toEqual({ link: 'the-secret' });
    expect(location.hash).toBe('');
  });

  it('says that a link was used, and that one is signed in already', async () => {
    me.is(who);
    at('/sign-in?to=/office#the-secret');
    answers['POST /api/v1/sessions/by-link'] = () => problem(404, 'link');
    answers['GET /api/v1/me'] = known;
    render(SignIn);
    expect((await screen.findByRole('alert')).textContent).toContain('not good any more');
    expect(screen.getByText('You are signed in as Mara Quist.')).toBeTruthy();
    expect(screen.getByRole('link', { name: 'Go on' }).getAttribute('href')).toBe('/office');
  });

  it('says how long to wait, and that nothing typed is lost without a network', async () => {
    at('/sign-in');
    answers['POST /api/v1/sessions'] = () => {
      const answer = problem(429, 'too-many');
      answer.headers.set('Retry-After', '15');
      return answer;
    };
    render(SignIn);
    await fill('E-mail address', 'mara@example.org');
    await fill('Password', 'right');
    await press('Sign in');
    expect((await screen.findByRole('alert')).textContent).toContain('again in 15 seconds');
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('away')));
    await press('Sign in');
    await screen.findByText(/cannot be reached/);
    expect(screen.getByLabelText<HTMLInputElement>('E-mail address').value).toBe('mara@example.org');
  });
});

describe('what is asked in the middle of something', () => {
  it('takes the password again', async () => {
    me.is(who);
    const asked = prompt.ask('password-again');
    answers['POST /api/v1/me/confirmation'] = ({ password }) =>
      password === 'right'
        ? new Response(null, { status: 204 })
        : problem(422, 'invalid', [{ pointer: '/password', message: 'is not the password of this account' }]);
    render(Ask, { wanted: 'password-again' });
    expect(screen.getByText(/the password of Mara Quist again/)).toBeTruthy();
    await fill('Password', 'wrong');
    await press('Go on');
    expect(await screen.findByText('Password is not the password of this account.')).toBeTruthy();
    await fill('Password', 'right');
    await press('Go on');
    await expect(asked).resolves.toBe(true);
  });

  it('lets somebody sign in', async () => {
    const asked = prompt.ask('sign-in');
    answers['POST /api/v1/sessions'] = known;
    render(Ask, { wanted: 'sign-in' });
    await fill('E-mail address', 'mara@example.org');
    await fill('Password', 'right');
    await press('Sign in');
    await expect(asked).resolves.toBe(true);
  });
});

it('makes the first account, and says beside the field what is wrong', async () => {
  at('/first#the-secret');
  answers['POST /api/v1/first'] = ({ account }) =>
    (account as { password: string }).password.length < 12
      ? problem(422, 'invalid', [{ pointer: '/account/password', message: 'has 5 characters' }])
      : known();
  render(First);
  await fill('Your name', 'Mara Quist');
  await fill('E-mail address', 'mara@example.org');
  await fill('New password', 'short');
  await press('Make the account');
  const wrong = await screen.findByText('New password has 5 characters.');
  const field = screen.getByLabelText('New password');
  expect(field.getAttribute('aria-describedby')).toBe(wrong.id);
  expect(document.activeElement).toBe(field);
  await fill('New password', 'a crow on every fence post');
  await press('Make the account');
  await vi.waitFor(() => expect(location.pathname).toBe('/account'));
});

it('sets a new password by a link, and then asks to sign in', async () => {
  at('/password#the-secret');
  answers['POST /api/v1/password'] = () => new Response(null, { status: 204 });
  render(NewPassword);
  await fill('New password', 'a crow on every fence post');
  await press('Set the password');
  expect(await screen.findByText(/The password is set/)).toBeTruthy();
  expect(sent).toEqual([{ link: 'the-secret', new: 'a crow on every fence post' }]);
  expect(screen.getByLabelText('E-mail address')).toBeTruthy();
});

describe('an invitation', () => {
  beforeEach(() => {
    at('/invitation#the-secret');
    answers['POST /api/v1/invitations/offer'] = () => Response.json({ contest, role: 'office' });
    answers['POST /api/v1/invitations/acceptance'] = known;
  });

  it('makes an account for whoever has none', async () => {
    render(Invitation);
    expect(await screen.findByRole('heading', { name: 'Office at Lindholm Open' })).toBeTruthy();
    await fill('Your name', 'Mara Quist');
    await fill('E-mail address', 'mara@example.org');
    await fill('New password', 'a crow on every fence post');
    await press('Make the account and accept');
    await vi.waitFor(() => expect(location.pathname).toBe('/contests/c1'));
    expect(sent.at(-1)).toMatchObject({ link: 'the-secret', account: { name: 'Mara Quist' } });
  });

  it('is accepted as who is signed in', async () => {
    me.is(who);
    render(Invitation);
    expect(await screen.findByText(/signed in as Mara Quist, and accept/)).toBeTruthy();
    await press('Accept');
    await vi.waitFor(() => expect(location.pathname).toBe('/contests/c1'));
    expect(sent.at(-1)).toEqual({ link: 'the-secret' });
  });

  it('says that it is not good any more', async () => {
    answers['POST /api/v1/invitations/offer'] = () => problem(404, 'link');
    render(Invitation);
    expect((await screen.findByRole('alert')).textContent).toContain('ask for another one');
  });
});

it('shows the account, ends a session and sets up a second factor', async () => {
  me.is(who);
  answers['GET /api/v1/me'] = () => Response.json(who);
  const session = { created: '2026-11-20T10:00:00Z', seen: '2026-11-26T08:00:00Z', expires: who.expires };
  let sessions = [
    { ...session, id: 's1', browser: 'Mozilla/5.0 (X11; Linux x86_64) Firefox/140.0', present: true },
    {
      ...session,
      id: 's2',
      browser: 'Mozilla/5.0 (iPad; CPU OS 19_0 like Mac OS X) Safari/604.1',
      present: false,
    },
  ];
  answers['GET /api/v1/me/sessions'] = () => Response.json({ sessions });
  answers['DELETE /api/v1/me/sessions/s2'] = () => {
    sessions = sessions.slice(0, 1);
    return new Response(null, { status: 204 });
  };
  answers['POST /api/v1/me/second-factor'] = () =>
    Response.json({ key: 'NJN4X3GT2V44', uri: 'otpauth://totp/Halfpoint:mara?secret=NJN4X3GT2V44' });
  answers['PUT /api/v1/me/second-factor'] = ({ code }) =>
    code === '123456'
      ? new Response(null, { status: 204 })
      : problem(422, 'invalid', [{ pointer: '/code', message: 'is not the code that the app shows now' }]);
  render(Account);
  expect(await screen.findByText('Firefox on Linux')).toBeTruthy();
  await press('End it: Safari on iPad');
  expect(await screen.findByText('The session is over.')).toBeTruthy();
  await vi.waitFor(() => expect(screen.queryByText('Safari on iPad')).toBeNull());
  await press('Set it up');
  expect(await screen.findByText('NJN4 X3GT 2V44')).toBeTruthy();
  await fill('Code of your second factor', '000000');
  await press('Confirm');
  expect(await screen.findByText(/is not the code that the app shows now/)).toBeTruthy();
  await fill('Code of your second factor', '123456');
  await press('Confirm');
  expect(await screen.findByText(/The second factor is set up/)).toBeTruthy();
});

it('shows the people of a contest and makes a link that is shown once', async () => {
  const invitation = {
    id: 'i1',
    role: 'pilot',
    pilot: { id: 'p1', name: 'Jonas Hale' },
    note: '',
    made: '2026-11-26T08:00:00Z',
    expires: '2099-01-01T00:00:00Z',
  };
  let invitations: object[] = [];
  answers['GET /api/v1/contests/c1/members'] = () =>
    Response.json({
      members: [
        {
          account: 'a1',
          name: 'Mara Quist',
          email: 'mara@example.org',
          role: 'director',
          given: invitation.made,
        },
      ],
    });
  answers['GET /api/v1/contests/c1/invitations'] = () => Response.json({ invitations });
  answers['GET /api/v1/contests/c1/setup'] = () =>
    Response.json({
      contest: { name: 'Lindholm Open' },
      officials: [],
      pilots: [{ id: 'p1', name: 'Jonas Hale' }],
    });
  answers['POST /api/v1/contests/c1/invitations'] = () => {
    invitations = [invitation];
    return Response.json({ invitation, link: 'new-secret' }, { status: 201 });
  };
  render(People, { id: 'c1' });
  await fireEvent.change(await screen.findByLabelText('Role'), { target: { value: 'pilot' } });
  await fireEvent.change(screen.getByLabelText('Which pilot'), { target: { value: 'p1' } });
  await press('Make a link');
  expect(await screen.findByText(`${location.origin}/invitation#new-secret`)).toBeTruthy();
  expect(sent).toContainEqual({ role: 'pilot', note: '', pilot: 'p1' });
  expect(await screen.findByText('Pilot: Jonas Hale')).toBeTruthy();
  expect(screen.getByText('good until 1 January 2099')).toBeTruthy();
});

it.each([
  ['Mozilla/5.0 (Windows NT 10.0; Win64; x64) Chrome/139.0.0.0 Safari/537.36 Edg/139.0', 'Edge on Windows'],
  ['Mozilla/5.0 (Linux; Android 15) Chrome/139.0 Mobile Safari/537.36', 'Chrome on Android'],
  ['Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) Version/18 Safari/605.1', 'Safari on macOS'],
  ['curl/8.5.0', 'curl'],
  ['', 'An unknown browser'],
])('%s is called %s', (agent, name) => expect(browserOf(agent)).toBe(name));
