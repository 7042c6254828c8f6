import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import PeoplePage from './People.svelte';
import { anyTwice, joined } from './people';
import type { People, Pilot } from './service';

const pilot = (contest: string, id: string, name: string): Pilot => ({
  contest: { id: contest, name: contest },
  pilot: id,
  name,
  affiliation: '',
});

const hill = pilot('spring', 'p1', 'Ann Hill');
const again = pilot('autumn', 'p7', 'Ann Hill');
const other = pilot('spring', 'p2', 'Bo Reed');

let shown: People;
let sent: unknown[];
let changed: boolean;

beforeEach(() => {
  sent = [];
  changed = false;
  shown = {
    season: { id: 's1', name: 'League' },
    revision: 4,
    pilots: [hill, again, other],
    proposals: [{ person: 'x', pilots: [hill, again] }],
  };
  vi.stubGlobal('fetch', async (asked: Request) => {
    if (asked.method === 'GET') return Response.json(shown);
    sent.push(await asked.json());
    shown = { ...shown, revision: 5, proposals: [] };
    return changed
      ? Response.json({ status: 409, detail: 'changed' }, { status: 409 })
      : Response.json(shown);
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

it('confirms two as one person, of the season that was read', async () => {
  render(PeoplePage, { id: 's1' });
  await fireEvent.click(await screen.findByRole('button', { name: 'One person: Ann Hill' }));
  await screen.findByText('Saved.');
  const person = expect.any(String) as unknown;
  const people = [
    { contest: 'spring', pilot: 'p1', person },
    { contest: 'autumn', pilot: 'p7', person },
  ];
  expect(sent).toEqual([{ revision: 4, people }]);
});

it('writes over nothing that somebody else said meanwhile, and shows what is there now', async () => {
  changed = true;
  render(PeoplePage, { id: 's1' });
  await fireEvent.click(await screen.findByRole('button', { name: 'One person: Ann Hill' }));
  expect((await screen.findByRole('alert')).textContent).toContain('Somebody else has changed the season');
  await screen.findByText('Nobody of the same name and affiliation is left to confirm.');
});

it('sends no two of one contest as one person', async () => {
  render(PeoplePage, { id: 's1' });
  const [first, second] = await screen.findAllByRole('combobox');
  await fireEvent.change(first as Element, { target: { value: 'spring p1' } });
  await fireEvent.change(second as Element, { target: { value: 'spring p2' } });
  await fireEvent.click(screen.getByRole('button', { name: 'are one person' }));
  expect((await screen.findByRole('alert')).textContent).toBe(
    'Two pilots of one contest cannot be one person.',
  );
  expect(sent).toEqual([]);
});

it('finds two of one contest also where a third joins them', () => {
  const one = joined([hill, again, other], [hill, again]);
  expect(anyTwice(one)).toBe(false);
  expect(anyTwice(joined(one, one.slice(1)))).toBe(true);
});
