import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { follow, go, match, onward, to, type Route } from './router';

describe('match', () => {
  it.each<[string, Route]>([
    ['/', { name: 'contests' }],
    ['/contests/c1', { name: 'contest', id: 'c1' }],
    ['/programmes/p1/', { name: 'programme', id: 'p1' }],
    ['/categories/k', { name: 'category', id: 'k' }],
    ['/flights/0190-a', { name: 'flight', id: '0190-a' }],
    ['/flights/f/cards', { name: 'flight-cards', id: 'f' }],
    ['/programmes/p/cards/', { name: 'programme-cards', id: 'p' }],
    ['/sign-in', { name: 'sign-in' }],
    ['/contests/c/people', { name: 'contest-people', id: 'c' }],
    ['/contests/c/wall', { name: 'contest-wall', id: 'c' }],
    ['/contests/c/pilots/p1', { name: 'pilot', id: 'c', pilot: 'p1' }],
    ['/contests/c/pilots', { name: 'nowhere' }],
    ['/contests/c/pilots/p/1', { name: 'nowhere' }],
    ['/contests/c/cards', { name: 'nowhere' }],
    ['/flights/f/cards/1', { name: 'nowhere' }],
    ['/contests', { name: 'nowhere' }],
    ['/flights/a/b', { name: 'nowhere' }],
    ['/toString/a', { name: 'nowhere' }],
    ['/flights/%E0%A4%A', { name: 'nowhere' }],
  ])('%s', (path, route) => {
    expect(match(path)).toEqual(route);
  });

  it('reads back what `to` writes', () => {
    const id = 'a/b ?#é';
    expect(match(to.flight(id))).toEqual({ name: 'flight', id });
    expect(match(to.category(id))).toEqual({ name: 'category', id });
  });
});

describe('onward', () => {
  it('leads back to where the reader was', () => {
    const here = '/programmes/p/sequence?a=1';
    expect(onward(to.signIn(here).slice('/sign-in'.length))).toBe(here);
    expect(to.signIn('/')).toBe('/sign-in');
  });

  it.each([
    '',
    '?to=',
    '?to=https://evil.example/',
    '?to=//evil.example/',
    '?to=/\\\\evil.example',
    '?to=/api/v1/docs',
    '?to=javascript:alert(1)',
  ])('leads nowhere else: %s', (search) => expect(onward(search)).toBeUndefined());
});

describe('follow', () => {
  let seen: Route[];
  let stop: () => void;

  beforeEach(() => {
    history.replaceState(null, '', '/');
    window.scrollTo = () => {};
    seen = [];
    stop = follow((route) => seen.push(route));
  });
  afterEach(() => stop());

  function click(html: string, init: MouseEventInit = {}): boolean {
    document.body.innerHTML = html;
    const event = new MouseEvent('click', { bubbles: true, cancelable: true, ...init });
    document.body.querySelector('b')?.dispatchEvent(event);
    return event.defaultPrevented;
  }

  it('shows where the reader goes back to', () => {
    dispatchEvent(new PopStateEvent('popstate'));
    expect(seen).toEqual([{ name: 'contests' }]);
  });

  it('goes on to another page, and instead of this one', () => {
    const before = history.length;
    go('/programmes/p1', true);
    expect(history.length).toBe(before);
    expect(seen.at(-1)).toEqual({ name: 'programme', id: 'p1' });
    go('/contests/c1');
    expect(seen.at(-1)).toEqual({ name: 'contest', id: 'c1' });
  });

  it('keeps a click on a link of the application in the page', () => {
    expect(click('<a href="/programmes/p1"><b>Known</b></a>')).toBe(true);
    expect(location.pathname).toBe('/programmes/p1');
    expect(seen.at(-1)).toEqual({ name: 'programme', id: 'p1' });
  });

  it.each([
    ['a new tab asked for', '<a href="/flights/f"><b></b></a>', { ctrlKey: true }],
    ['another button', '<a href="/flights/f"><b></b></a>', { button: 1 }],
    ['another place', '<a href="https://example.org/flights/f"><b></b></a>', {}],
    ['a place of the server', '<a href="/api/v1/docs"><b></b></a>', {}],
    ['a jump inside the page', '<a href="#numbers"><b></b></a>', {}],
    ['a download', '<a href="/flights/f" download><b></b></a>', {}],
  ])('leaves %s to the browser', (_, html, init) => {
    document.addEventListener('click', (event) => event.preventDefault(), { once: true });
    click(html, init);
    expect(seen).toEqual([]);
  });
});
