import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import Told from './Told.svelte';

const named = (id: string, name: string) => ({ id, name });
let kept: { note: string; description: string };
let version: number;
let sent: { path: string; body: unknown }[];

const told = () => ({
  head: { epoch: 'e', version },
  contest: named('c', 'Lindholm Open'),
  pilot: named('p', 'Mara Quist'),
  note: kept.note,
  flights: [
    {
      id: 'f',
      number: 3,
      category: named('k', 'Ridge'),
      programme: named('s', 'Freestyle'),
      description: kept.description,
    },
  ],
});

beforeEach(() => {
  kept = { note: 'Flew gliders first.', description: '' };
  version = 1;
  sent = [];
  vi.stubGlobal('fetch', async (asked: Request) => {
    const path = new URL(asked.url).pathname.split('/').slice(-2).join('/');
    if (asked.method === 'PUT') {
      const body = (await asked.json()) as { text: string; replaces: string };
      sent.push({ path, body });
      const field = path.endsWith('note') ? 'note' : 'description';
      if (kept[field] !== body.replaces) return Response.json({ status: 409 }, { status: 409 });
      kept[field] = body.text;
      version++;
    }
    return Response.json(told());
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  localStorage.clear();
});

const note = () => screen.findByLabelText<HTMLTextAreaElement>('A line about the pilot');
const press = (n: number) =>
  fireEvent.click(screen.getAllByRole('button', { name: 'Save' })[n] as HTMLElement);

it('keeps a line about the pilot, on one line, and a free style as it was written', async () => {
  render(Told, { contest: 'c', pilot: 'p' });
  await fireEvent.input(await note(), { target: { value: ' Builds\n her own. ' } });
  await press(0);
  await screen.findByText('Saved.');
  expect((await note()).value).toBe('Builds her own.');
  const own = screen.getByLabelText('Ridge, Freestyle, in the pilot’s own words');
  await fireEvent.input(own, { target: { value: 'One loop.\nThen smoke.' } });
  await press(1);
  await vi.waitFor(() => expect(sent).toHaveLength(2));
  expect(sent).toEqual([
    { path: 'p/note', body: { text: 'Builds her own.', replaces: 'Flew gliders first.' } },
    { path: 'f/description', body: { text: 'One loop.\nThen smoke.', replaces: '' } },
  ]);
});

it('shows what somebody else wrote meanwhile before it is replaced', async () => {
  render(Told, { contest: 'c', pilot: 'p' });
  await fireEvent.input(await note(), { target: { value: 'Mine.' } });
  kept.note = 'By the office.';
  await press(0);
  expect((await screen.findByRole('alert')).textContent).toContain('By the office.');
  expect((await note()).value).toBe('Mine.');
  await press(0);
  await screen.findByText('Saved.');
  expect(kept.note).toBe('Mine.');
  expect(screen.queryByRole('alert')).toBeNull();
});

it('is of one flight where it stands at its sequence', async () => {
  render(Told, { contest: 'c', pilot: 'p', flight: 'f' });
  expect(await screen.findByLabelText('The flight in the pilot’s own words')).toBeTruthy();
  expect(screen.queryByLabelText('A line about the pilot')).toBeNull();
});

it('keeps what is written and not saved through a reload, until it is saved or discarded', async () => {
  const first = render(Told, { contest: 'c', pilot: 'p' });
  await fireEvent.input(await note(), { target: { value: 'Flew gliders first, then' } });
  await screen.findByText('Not saved yet; kept on this device.');
  first.unmount();
  kept.note = 'By the office.';
  version++;
  const second = render(Told, { contest: 'c', pilot: 'p' });
  expect((await note()).value).toBe('Flew gliders first, then');
  expect(screen.getByText('Not saved yet; it was found on this device.')).toBeTruthy();
  expect(screen.getByRole('alert').textContent).toContain('By the office.');
  await press(0);
  await screen.findByText('Saved.');
  expect(kept.note).toBe('Flew gliders first, then');
  await fireEvent.input(await note(), { target: { value: 'No.' } });
  await fireEvent.click(screen.getByRole('button', { name: 'Discard' }));
  expect((await note()).value).toBe('Flew gliders first, then');
  second.unmount();
  render(Told, { contest: 'c', pilot: 'p' });
  expect((await note()).value).toBe('Flew gliders first, then');
  expect(screen.queryByText(/Not saved yet/)).toBeNull();
});

it('keeps what is written while it is saved', async () => {
  render(Told, { contest: 'c', pilot: 'p' });
  await fireEvent.input(await note(), { target: { value: 'One' } });
  const pressed = press(0);
  await fireEvent.input(await note(), { target: { value: 'One, two' } });
  await pressed;
  await vi.waitFor(() => expect(kept.note).toBe('One'));
  await screen.findByText('Not saved yet; kept on this device.');
  expect((await note()).value).toBe('One, two');
  await vi.waitFor(() => expect(screen.queryByText('Saving …')).toBeNull());
  expect(screen.queryByRole('alert')).toBeNull();
  await press(0);
  await vi.waitFor(() => expect(kept.note).toBe('One, two'));
});

it('is left with a warning where this browser keeps nothing', async () => {
  const full = vi.spyOn(Storage.prototype, 'setItem').mockImplementation(() => {
    throw new DOMException('full', 'QuotaExceededError');
  });
  render(Told, { contest: 'c', pilot: 'p' });
  await fireEvent.input(await note(), { target: { value: 'Mine.' } });
  await screen.findByText(/this browser keeps nothing/);
  const left = new Event('beforeunload', { cancelable: true });
  window.dispatchEvent(left);
  expect(left.defaultPrevented).toBe(true);
  full.mockRestore();
});
