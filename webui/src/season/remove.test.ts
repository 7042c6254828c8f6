import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import Remove from './Remove.svelte';

let sent: string[];
let status: number;

beforeEach(() => {
  sent = [];
  status = 204;
  vi.stubGlobal('fetch', (asked: Request) => {
    sent.push(`${asked.method} ${new URL(asked.url).pathname}${new URL(asked.url).search}`);
    const detail = 'somebody else has changed the season meanwhile; read it again';
    return Promise.resolve(
      status === 204 ? new Response(null, { status }) : Response.json({ status, detail }, { status }),
    );
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));

it('deletes a season that was asked for twice, and goes to the others', async () => {
  history.replaceState(null, '', '/seasons/s1/setup');
  render(Remove, { id: 's1', revision: () => 4 });
  await press('Delete this season');
  expect(document.activeElement?.textContent?.trim()).toBe('Keep it');
  await press('Keep it');
  expect(sent).toEqual([]);
  await press('Delete this season');
  await press('Delete it for good');
  await vi.waitFor(() => expect(location.pathname).toBe('/seasons'));
  expect(sent).toEqual(['DELETE /api/v1/seasons/s1?revision=4']);
});

it('keeps one that somebody else changed meanwhile, and says so', async () => {
  status = 409;
  render(Remove, { id: 's1', revision: () => 4 });
  await press('Delete this season');
  await press('Delete it for good');
  expect((await screen.findByRole('alert')).textContent).toContain('changed the season meanwhile');
  expect(location.pathname).toBe('/');
});
