import { cleanup, fireEvent, render, screen, within } from '@testing-library/svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { whoIs } from '../lib/fixtures/who';
import { me } from '../lib/me.svelte';
import { drawOf, firstFree, left, moved, rowsOf } from './moving';
import Page from './Order.svelte';
import type { Order, Pilot, Turn } from './service';

const pilot = (id: string): Pilot => ({ id, name: `Pilot ${id}`, affiliation: 'Heron', aircraft: '' });
const turn = (number: number, id: string, more: Partial<Turn> = {}): Turn => ({
  ...{ flight: `f${number}`, number, code: id, pilot: pilot(id), state: 'waiting' as const, fixed: false },
  ...more,
});
const at = '2026-06-12T10:00:00';
const order = (more: Partial<Order> = {}): Order => ({
  head: { epoch: 'e', version: 1 },
  contest: { id: 'c1', name: 'Tarn Valley Cup' },
  category: { id: 'k1', name: 'Meadow' },
  programme: { id: 'p1', name: 'Free' } as Order['programme'],
  ...{ revision: 3, draws: 1, moves: 0, plan: { by: 'lot' as const, seed: 'wind 24 kt' } },
  turns: [turn(1, 'a', { fixed: true, state: 'flown', begun: at }), turn(2, 'b'), turn(3, 'c')],
  entered: [pilot('d')],
  ...more,
});

describe('an order that is changed by hand', () => {
  const rows = rowsOf(order());
  it('moves a flight as far as it can', () => {
    expect(firstFree(rows)).toBe(1);
    expect(moved(rows, 2, 1)).toEqual(['a', 'c', 'b']);
    expect(moved(rows, 2, 0)).toEqual(['a', 'c', 'b']); // not before one that was called
    expect(moved(rows, 1, 99)).toEqual(['a', 'c', 'b']);
    expect(moved(rows, 1, 1)).toEqual(['a', 'b', 'c']);
  });
  it('knows who is added and who is left', () => {
    expect(rowsOf(order(), ['a', 'd', 'c']).map(({ turn }) => turn?.number)).toEqual([1, undefined, 3]);
    expect(left(order(), rowsOf(order(), ['a', 'd', 'c'])).map(({ id }) => id)).toEqual(['b']);
    expect(left(order(), rows).map(({ id }) => id)).toEqual(['d']);
  });
});

it.each([
  ['lot', { by: 'lot', seed: '7' }],
  ['best', { by: 'standing', of: 'p0', best: 9 }],
  ['last', { by: 'standing', of: 'p0', best: 9, reversed: true }],
  ['blocks', { by: 'standing', of: 'p0', best: 9, block: 4, seed: '7' }],
  ['blocks-last', { by: 'standing', of: 'p0', best: 9, block: 4, seed: '7', reversed: true }],
] as const)('asks for a draw of the kind %s', (way, asked) => {
  expect(drawOf({ way, of: 'p0', block: '4', best: '9', seed: ' 7 ' }, 3)).toEqual({ revision: 3, ...asked });
});

describe('the page', () => {
  let present: Order;
  let sent: { path: string; body: unknown }[];
  let refusal: object | undefined;

  beforeEach(() => {
    [present, sent, refusal] = [order(), [], undefined];
    window.scrollTo = () => {};
    vi.stubGlobal('EventSource', undefined);
    vi.stubGlobal('fetch', async (asked: Request | string) => {
      const request = asked instanceof Request ? asked : new Request(new URL(asked, location.href));
      const { pathname } = new URL(request.url);
      if (pathname.endsWith('/events')) return new Response(null, { status: 503 });
      if (pathname === '/api/v1/contests/c1') {
        return Response.json({ categories: [{ id: 'k1', programmes: [{ id: 'p0', name: 'Known' }] }] });
      }
      if (request.method !== 'GET') {
        sent.push({ path: pathname, body: await request.json() });
        if (refusal) return Response.json(refusal, { status: 409 });
        present = { ...present, revision: present.revision + 1 };
      }
      return Response.json(present);
    });
  });
  afterEach(() => {
    cleanup();
    vi.unstubAllGlobals();
  });
  const office = () => me.is(whoIs({ roles: [{ contest: present.contest, role: 'office' }] }));
  const tap = async (name: string | RegExp) => fireEvent.click(await screen.findByRole('button', { name }));
  const names = () =>
    screen.getAllByRole('listitem').flatMap((one) => /Pilot \w/.exec(one.textContent ?? '') ?? []);

  it('tells everyone the order, the times and how it was drawn, and no more', async () => {
    present.turns[1] = turn(2, 'b', { expected: '2026-06-12T14:20:00' });
    present.pace = 630;
    render(Page, { id: 'p1' });
    const rows = await screen.findAllByText(/^Pilot/);
    expect(rows.map((row) => row.textContent)).toEqual(['Pilot a', 'Pilot b', 'Pilot c']);
    expect(screen.getByText('about 14:20')).toBeTruthy();
    expect(screen.getByText(/at 10\.5 minutes from flight to flight/)).toBeTruthy();
    expect(screen.getByText('wind 24 kt')).toBeTruthy();
    expect(screen.getByText(/^Nothing here says whether/)).toBeTruthy();
    expect(screen.queryByRole('button')).toBeNull();
  });

  it('says that times are not known yet', async () => {
    render(Page, { id: 'p1' });
    expect(await screen.findByText(/once three flights have begun/)).toBeTruthy();
  });

  it('keeps what the office moved, added and took out, all at once', async () => {
    office();
    render(Page, { id: 'p1' });
    await tap('Move Pilot c up');
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Move Pilot c down' }));
    await tap('Add Pilot d at the end');
    await tap('Take Pilot b out');
    await fireEvent.change(screen.getByLabelText('Place of Pilot d'), { target: { value: '2' } });
    expect(names()).toEqual(['Pilot a', 'Pilot d', 'Pilot c', 'Pilot b']); // the last one is not in it
    expect(screen.queryByRole('button', { name: 'Move Pilot a up' })).toBeNull();
    expect(sent).toEqual([]);
    await tap('Keep this order');
    expect(await screen.findByText('The order is kept.')).toBeTruthy();
    const path = '/api/v1/programmes/p1/order';
    expect(sent).toEqual([{ path, body: { revision: 3, pilots: ['a', 'd', 'c'] } }]);
  });

  it('does not write over what somebody else changed', async () => {
    office();
    refusal = {
      type: '/api/v1/docs#conflict',
      status: 409,
      detail: 'Ida changed the running order meanwhile',
    };
    render(Page, { id: 'p1' });
    await tap('Move Pilot c up');
    await tap('Keep this order');
    expect((await screen.findByRole('alert')).textContent).toContain('Ida changed the running order');
    expect(names().slice(0, 3)).toEqual(['Pilot a', 'Pilot c', 'Pilot b']);
    await tap('Discard');
    expect(names().slice(0, 3)).toEqual(['Pilot a', 'Pilot b', 'Pilot c']);
  });

  it('draws in blocks by a standing', async () => {
    office();
    render(Page, { id: 'p1' });
    await fireEvent.change(await screen.findByLabelText('How'), { target: { value: 'blocks-last' } });
    await within(screen.getByLabelText('Whose standing')).findByText('Known');
    await fireEvent.change(screen.getByLabelText('Whose standing'), { target: { value: 'p0' } });
    await fireEvent.input(screen.getByLabelText('Pilots in a block'), { target: { value: '2' } });
    await tap('Draw again');
    expect(await screen.findByText('It is drawn.')).toBeTruthy();
    expect(sent[0]?.body).toEqual({ revision: 3, by: 'standing', of: 'p0', reversed: true, block: 2 });
  });
});
