import { cleanup, fireEvent, render, screen, within } from '@testing-library/svelte';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import Devices from './Devices.svelte';
import { addressesOf, hasTwin, isSilent, takenBy, withoutTablet } from './list';
import type { Device, PairingMade } from './service';

const ada = { id: 'j1', name: 'Ada Voss' };
const ben = { id: 'j2', name: 'Ben Okoye' };
const now = Date.parse('2026-06-12T10:00:00Z');
const device = (id: string, more: Partial<Device> = {}): Device => ({
  ...{ id, role: 'judge', judge: ada, paired: '2026-06-12T09:00:00Z' },
  ...{ last_contact: '2026-06-12T09:59:50Z', unsent: 0, ...more },
});

it('knows who is silent, doubled or missing', () => {
  const second = device('d2');
  const gone = device('d3', { withdrawn: '2026-06-12T09:30:00Z' });
  expect(isSilent(device('d1'), now)).toBe(false);
  expect(isSilent(device('d1', { last_contact: '2026-06-12T09:58:00Z' }), now)).toBe(true);
  expect(isSilent({ id: 'd1', role: 'chief', paired: '' }, now)).toBe(true);
  expect(hasTwin(device('d1'), [device('d1'), second])).toBe(true);
  expect(hasTwin(device('d1'), [device('d1'), gone, device('d4', { role: 'assistant' })])).toBe(false);
  expect(withoutTablet([ada, ben], [device('d1')])).toEqual([ben]);
  expect(withoutTablet([ada], [gone])).toEqual([ada]);
});

it('sees which device took an offer', () => {
  const offer = { contest: { id: 'c', name: 'C' }, role: 'judge' as const, judge: ada, expires: '' };
  const made: PairingMade = { code: 'ACDE3467', link: 's', addresses: [], offer };
  expect(takenBy(made, ['d1'], [device('d1')])).toBeUndefined();
  expect(takenBy(made, ['d1'], [device('d1'), device('d2')])?.id).toBe('d2');
});

it('offers an address that tablets reach', () => {
  const here = { hostname: '127.0.0.1', origin: 'http://127.0.0.1:8080' };
  const named = { hostname: 'judging.test', origin: 'https://judging.test' };
  expect(addressesOf([], here)).toEqual([]);
  expect(addressesOf([], named)).toEqual(['https://judging.test']);
  expect(addressesOf(['https://judging.test:8443'], here)).toEqual(['https://judging.test:8443']);
});

let devices: Device[];
let sent: string[];

beforeEach(() => {
  [devices, sent] = [[device('d1', { unsent: 3 })], []];
  window.scrollTo = () => {};
  vi.stubGlobal('EventSource', undefined);
  vi.stubGlobal('isSecureContext', true);
  vi.stubGlobal('fetch', async (asked: Request | string) => {
    const request = asked instanceof Request ? asked : new Request(new URL(asked, location.href));
    const { pathname } = new URL(request.url);
    sent.push(`${request.method} ${pathname} ${await request.text()}`.trim());
    return answer(request.method, pathname);
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function answer(method: string, path: string): Response {
  const head = { epoch: 'e', version: 1, journal: 1, hash: 'h' };
  const officials = [ada, ben].map((one) => ({ ...one, duty: 'judge' }));
  if (path.endsWith('/devices')) return Response.json({ devices });
  if (path.endsWith('/setup')) return Response.json({ head, contest: { name: 'Lindholm Open' }, officials });
  if (path.endsWith('/pairings')) {
    const contest = { id: 'c1', name: 'Lindholm Open' };
    const offer = { contest, role: 'judge', judge: ben, expires: '2026-06-12T10:15:00Z' };
    return Response.json(
      { code: 'ACDE3467', link: 'secret', addresses: ['https://judging.test'], offer },
      { status: 201 },
    );
  }
  if (method === 'DELETE') {
    devices = [];
    return new Response(null, { status: 204 });
  }
  return new Response(null, { status: 404 });
}

it('lists the devices, offers a seat that has none, and withdraws one', async () => {
  render(Devices, { id: 'c1' });
  const row = await screen.findByRole('row', { name: /^judge, Ada Voss/ });
  expect(within(row).getByText('3')).toBeTruthy();
  expect(screen.getByText('No tablet yet: Ben Okoye')).toBeTruthy();
  expect((screen.getByLabelText('Whose seat') as HTMLSelectElement).value).toBe('j2');
  await fireEvent.click(screen.getByRole('button', { name: 'Make a code' }));
  expect(await screen.findByText('ACDE-3467')).toBeTruthy();
  expect(screen.getByText(/judging\.test\/pair#secret/)).toBeTruthy();
  expect(screen.getByRole('img', { name: /QR code/ })).toBeTruthy();
  expect(sent).toContain('POST /api/v1/contests/c1/pairings {"role":"judge","judge":"j2"}');
  await fireEvent.click(screen.getByRole('button', { name: /^Withdraw: judge, Ada Voss/ }));
  await fireEvent.click(screen.getByRole('button', { name: 'Withdraw it?' }));
  expect(await screen.findByText('No device is paired yet')).toBeTruthy();
  expect(sent).toContain('DELETE /api/v1/contests/c1/devices/d1');
});
