import 'fake-indexeddb/auto';
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { deviceAt, haveEveryLock, LineOffice } from '../../lib/fixtures/plan';
import type { LineDevice } from '../device.svelte';
import { statusDraft } from '../make';
import Judge from './Judge.svelte';

// To find something by its role is slow in jsdom.
vi.setConfig({ testTimeout: 30_000 });
configure({ asyncUtilTimeout: 5_000 });

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

const tap = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const key = (name: string) =>
  fireEvent.click(within(screen.getByRole('group', { name: 'Grades' })).getByRole('button', { name }));
const grades = () => office.service.records.filter(({ kind }) => kind === 'grade').map(({ grade }) => grade);

async function start(role: 'judge' | 'chief', seat?: number): Promise<LineDevice> {
  const device = await deviceAt(office, role, seat);
  started.push(device);
  return device;
}

/** A judge's tablet with flight 7 on the line. */
async function judging(): Promise<LineDevice> {
  const device = await start('judge', 0);
  render(Judge, { device });
  await fireEvent.click(await screen.findByRole('button', { name: /^7/ }));
  await screen.findByRole('heading', { name: 'Flight 7' });
  return device;
}

it('records a grade at one tap, says it back and moves on', async () => {
  await judging();
  expect(screen.getByRole('heading', { name: '1 loop' })).toBeTruthy();
  await key('7.5');
  expect(await screen.findByRole('heading', { name: '2 hammerhead' })).toBeTruthy();
  expect(screen.getByText('7.5', { selector: '[role=status] b' })).toBeTruthy();
  expect(screen.getByRole('button', { name: '1, loop: 7.5' })).toBeTruthy();
  await waitFor(() => expect(grades()).toEqual(['7.5']));
  expect(await screen.findByText('all at the office')).toBeTruthy();
});

it('takes the last tap back, and goes where it was', async () => {
  await judging();
  await key('7.5');
  await screen.findByRole('heading', { name: '2 hammerhead' });
  await tap('Take back');
  expect(await screen.findByRole('heading', { name: '1 loop' })).toBeTruthy();
  expect(screen.getByRole('button', { name: '1, loop: no grade yet' })).toBeTruthy();
  await waitFor(() => expect(grades()).toEqual(['7.5', '']));
});

it('goes back to a figure by a tap on the strip, and corrects it', async () => {
  await judging();
  await key('7.5');
  await screen.findByRole('heading', { name: '2 hammerhead' });
  await tap('1, loop: 7.5');
  await key('hard zero');
  expect(await screen.findByRole('button', { name: '1, loop: hard zero' })).toBeTruthy();
  expect(screen.getByRole('heading', { name: '2 hammerhead' })).toBeTruthy();
});

it('keeps a remark for the grade that comes, and offers the mark that the letters make', async () => {
  await judging();
  await tap('Remark');
  await tap('flat');
  await tap('left');
  await screen.findByRole('button', { name: 'left', pressed: true });
  await tap('left');
  await screen.findByRole('button', { name: 'much too far left' });
  await tap('Done');
  await key('6.0');
  await key('7.0');
  await waitFor(() => expect(office.service.records[0]?.remark).toBe('flat, LL'));
  expect(await screen.findByText('2 letters for the position: 9.0 is offered.')).toBeTruthy();
});

it('works without a network, and says so', async () => {
  const device = await judging();
  office.away = true;
  await key('7.5');
  await screen.findByRole('heading', { name: '2 hammerhead' });
  expect(await screen.findByText('1 waiting')).toBeTruthy();
  expect(office.service.records).toEqual([]);
  office.away = false;
  await device.ask();
  expect(await screen.findByText('all at the office')).toBeTruthy();
  expect(grades()).toEqual(['7.5']);
});

it('signs a whole sheet, and waits for the next flight', async () => {
  const device = await judging();
  for (const grade of ['7.5', 'not seen', '8.0']) await key(grade);
  expect(await screen.findByRole('heading', { name: 'Sheet of flight 7' })).toBeTruthy();
  await tap('Sign flight 7');
  expect(await screen.findByText('Flight 7 is signed.')).toBeTruthy();
  expect(device.flights[0]?.state?.attempts[0]?.sheets[0]?.signature.state).toBe('signed');
  const chief = await start('chief');
  const eight = chief.flights[1]?.state;
  if (!eight) throw new Error('no flight');
  await chief.act(() => [statusDraft(eight, 1, { status: 'called', wind: 'left' })]);
  await waitFor(() => expect(office.service.records.at(-1)?.status).toBe('called'));
  await device.ask();
  expect(await screen.findByRole('heading', { name: 'Flight 8' })).toBeTruthy();
});

it('cannot sign with a figure left out, and names it', async () => {
  await judging();
  await key('7.5');
  await tap('Whole sheet');
  expect(await screen.findByText('2 figures have no grade.')).toBeTruthy();
  expect(screen.getByRole('button', { name: 'Sign flight 7' })).toHaveProperty('disabled', true);
  await tap(/^2 hammerhead/);
  await key('7.0');
  await tap('Whole sheet');
  expect(await screen.findByText('Figure 3 has no grade.')).toBeTruthy();
});

it('is where it was after the page is loaded again', async () => {
  const device = await judging();
  await key('7.5');
  await screen.findByRole('heading', { name: '2 hammerhead' });
  cleanup();
  render(Judge, { device });
  expect(await screen.findByRole('heading', { name: 'Flight 7' })).toBeTruthy();
  expect(screen.getByRole('heading', { name: '2 hammerhead' })).toBeTruthy();
});
