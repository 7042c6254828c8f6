import 'fake-indexeddb/auto';
import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { deviceAt, flightIds, haveEveryLock, judges, LineOffice } from '../../lib/fixtures/plan';
import type { LineDevice } from '../device.svelte';
import Caller from '../caller/Caller.svelte';
import { countingOf, deskOf } from '../desk';
import { gradeDraft, signDraft } from '../make';
import type { Plan } from '../plan';
import Chief from './Chief.svelte';

// To find something by its role is slow in jsdom.
vi.setConfig({ testTimeout: 60_000 });
configure({ asyncUtilTimeout: 10_000 });

let office: LineOffice;
let started: LineDevice[];

beforeEach(() => {
  [office, started] = [new LineOffice(), []];
  vi.stubGlobal('fetch', () => new Promise(() => {}));
  haveEveryLock();
});
afterEach(() => {
  cleanup();
  for (const device of started) device.stop();
  vi.unstubAllGlobals();
});

const tap = async (name: string | RegExp) => fireEvent.click(await screen.findByRole('button', { name }));
const said = (kind: string) => office.service.records.filter((one) => one.kind === kind);

async function start(role: 'judge' | 'chief' | 'assistant', seat?: number): Promise<LineDevice> {
  const device = await deviceAt(office, role, seat);
  started.push(device);
  return device;
}

async function chief(): Promise<LineDevice> {
  const device = await start('chief');
  render(Chief, { device });
  await screen.findByRole('heading', { name: 'Flight 7' });
  return device;
}

const first = flightIds[0] as string;

/** A seat grades the first flight, and signs where it has graded all of it. */
async function grade(seat: number, grades: string[]): Promise<void> {
  const device = await start('judge', seat);
  const desk = () => {
    const live = device.flights.find(({ flight }) => flight.id === first);
    const found = live && deskOf(live.flight, live.state, judges[seat]?.id ?? '');
    if (!found?.flight.sequence) throw new Error('no sheet');
    return { ...found, digest: found.flight.sequence.digest };
  };
  for (const [i, grade] of grades.entries()) {
    await device.act(() => {
      const { digest, sheet } = desk();
      return [gradeDraft({ flight: first, attempt: 1 }, digest, sheet, i + 1, { grade, remark: '' })];
    });
  }
  if (grades.length === 3) {
    const { digest, sheet } = desk();
    await device.act(() => [signDraft({ flight: first, attempt: 1 }, device.pairing.contest, digest, sheet)]);
  }
  await waitFor(() => expect(device.waiting).toBe(0));
}

/** How the first seat's sheet of a flight stands. */
function signature(device: LineDevice, flight: number): string | undefined {
  const state = device.flights[flight]?.state;
  return state && countingOf(state)?.sheets[0]?.signature.state;
}

/** The chief judge's tablet, at the seat that has signed its sheet of the first flight. */
async function chiefAtSignedSeat(): Promise<LineDevice> {
  const device = await chief();
  await tap('Call flight 7 on');
  await grade(0, ['7.0', '7.0', '8.0']);
  await device.ask();
  await waitFor(() =>
    expect(screen.getByRole('button', { name: /^Seat 1/ }).textContent).toContain('signed'),
  );
  await tap(/^Seat 1/);
  return device;
}

it('calls a flight on, sees it graded, rules, gives a penalty and closes it', async () => {
  const device = await chief();
  await tap('wind to the right →');
  await tap('Call flight 7 on');
  await tap('In the air');
  await waitFor(() => expect(said('status').map(({ status }) => status)).toEqual(['called', 'flying']));
  expect(said('status')[0]?.wind).toBe('right');
  await grade(0, ['HZ', '7.0', '8.0']);
  await grade(1, ['7.0', '7.5', '8.0']);
  await device.ask();
  expect(await screen.findByText('1 hard zero of 2 grades')).toBeTruthy();
  await tap('No hard zero');
  expect(await screen.findByText('no hard zero')).toBeTruthy();
  await tap('Penalties');
  await tap('One more: below the floor');
  await waitFor(() =>
    expect(said('penalty')[0]?.penalty).toEqual({ kind: 'below the floor', count: 1, points: 50 }),
  );
  await tap('Back to the flight');
  const penalties = await screen.findByRole('list', { name: 'Penalties' });
  expect(penalties.textContent).toContain('below the floor');
  await tap('Down');
  expect(await screen.findByText('Nothing stands in the way of closing.')).toBeTruthy();
  await tap('Close flight 7');
  expect(await screen.findByRole('heading', { name: 'Flight 8' })).toBeTruthy();
  await waitFor(() => expect(said('status').at(-1)?.status).toBe('closed'));
  expect(said('status').at(-1)?.covers).toHaveLength(10); // six grades, two signatures, a ruling, a penalty
});

it('says before closing which seat is missing, and lets a seat be absent', async () => {
  const device = await chief();
  await tap('Call flight 7 on');
  await grade(0, ['7.0', '7.0', '8.0']);
  await tap('In the air');
  await tap('Down');
  await device.ask();
  expect(await screen.findByText('Not signed: seat 2')).toBeTruthy();
  await tap(/^Seat 2/);
  await tap('Absent for this flight');
  expect(await screen.findByRole('button', { name: 'Back in the seat' })).toBeTruthy();
  await tap('Back to the flight');
  expect(await screen.findByText('Nothing stands in the way of closing.')).toBeTruthy();
});

it('opens a signed sheet again for a reason', async () => {
  const device = await chiefAtSignedSeat();
  await tap('Open the sheet again');
  await tap('a grade was missed');
  await tap('Record it');
  await waitFor(() => expect(said('reopen')[0]?.reason).toBe('a grade was missed'));
  await waitFor(() => expect(signature(device, 0)).toBe('reopened'));
});

it('moves a sheet that was entered for the wrong flight', async () => {
  const device = await chiefAtSignedSeat();
  await tap('Sheet of another flight');
  await tap('It is of flight 8');
  await tap('entered for the wrong flight');
  await tap('Record it');
  await waitFor(() => expect([0, 1].map((i) => signature(device, i))).toEqual(['unsigned', 'signed']));
  await waitFor(() => expect(said('sign').at(-1)?.flight).toBe(flightIds[1]));
});

it('works without a network, interrupts a flight and has it flown again', async () => {
  const device = await chief();
  office.away = true;
  await tap('Call flight 7 on');
  await tap('In the air');
  await tap('Interrupted');
  await tap('weather');
  await tap('Record it');
  await tap('Fly again: attempt 2');
  expect(await screen.findByText('attempt 2')).toBeTruthy();
  expect(await screen.findByText('4 waiting')).toBeTruthy();
  await tap('Attempt 1 counts');
  await waitFor(() => expect(device.flights[0]?.state?.counting).toBe(1));
  office.away = false;
  await device.ask();
  expect(await screen.findByText('all at the office')).toBeTruthy();
});

it('opens a flight again that was closed by mistake', async () => {
  await chief();
  for (const name of ['Call flight 7 on', 'In the air', 'Down', /^Close flight 7/]) {
    await tap(name);
  }
  await screen.findByRole('heading', { name: 'Flight 8' });
  await tap('Another flight');
  await tap(/^7/);
  await tap('Open flight 7 again');
  await tap('closed by mistake');
  await tap('Record it');
  expect(await screen.findByRole('button', { name: /^Close flight 7/ })).toBeTruthy();
});

it('leads to a flight that is over when no other is left', async () => {
  const official = await start('chief');
  render(Chief, { device: official });
  const plan = official.plan as Plan;
  const programmes = plan.programmes.map((one) => ({
    ...one,
    flights: one.flights.map((flight) => ({ ...flight, status: 'closed' })),
  }));
  official.plan = { ...plan, programmes };
  expect(await screen.findByText('No flight is left.')).toBeTruthy();
  await tap('Another flight');
  await tap(/^7/);
  expect(await screen.findByRole('heading', { name: 'Flight 7' })).toBeTruthy();
  // This tablet has heard nothing of it: it does not call it on again.
  expect(await screen.findByText(/not on this tablet/)).toBeTruthy();
  expect(screen.queryByText('Call flight 7 on')).toBeNull();
});

/** Flight 7 is called on, and an assistant's page opened. */
async function calledTo(official: LineDevice, assistant: LineDevice): Promise<void> {
  render(Chief, { device: official });
  await tap('Call flight 7 on');
  await waitFor(() => expect(said('status')).toHaveLength(1));
  cleanup();
  render(Caller, { device: assistant });
  await assistant.ask();
}

it('reads the calls to a judge, and goes on with the sheet', async () => {
  const official = await start('chief');
  const assistant = await start('assistant', 0);
  render(Caller, { device: assistant });
  expect(await screen.findByText('No flight is called on.')).toBeTruthy();
  cleanup();
  await calledTo(official, assistant);
  expect(await screen.findByText(/full roll at the top/)).toBeTruthy();
  await grade(0, ['7.0']);
  await assistant.ask();
  await waitFor(() => expect(screen.queryByText(/full roll at the top/)).toBeNull());
  await tap('One back');
  expect(await screen.findByText(/full roll at the top/)).toBeTruthy();
  // A page that is loaded again goes on there.
  cleanup();
  render(Caller, { device: assistant });
  expect(await screen.findByText(/full roll at the top/)).toBeTruthy();
});

it('tells an assistant what a flight without figures is marked for, and leaves it', async () => {
  const official = await start('chief');
  const assistant = await start('assistant', 0);
  await calledTo(official, assistant);
  assistant.items = Object.fromEntries(
    Object.entries(assistant.items).map(([key, list]) => [
      key,
      list.filter(({ kind }) => kind === 'overall'),
    ]),
  );
  expect(await screen.findByText('It is marked as a whole: Positioning.')).toBeTruthy();
  await tap('Another flight');
  expect(await screen.findByRole('heading', { name: 'Which flight?' })).toBeTruthy();
});
