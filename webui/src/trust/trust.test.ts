import { cleanup, render, screen } from '@testing-library/svelte';
import { afterEach, expect, it, vi } from 'vitest';
import Trust from './Trust.svelte';

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

function answers(response: Response): void {
  window.scrollTo = () => {};
  vi.stubGlobal('fetch', async () => response);
}

it('shows the fingerprint, and where a tablet gets the certificate', async () => {
  answers(new Response('abc', { headers: { 'Halfpoint-Name': 'judging.test' } }));
  const { container } = render(Trust);
  expect(await screen.findByRole('img', { name: /QR code/ })).toBeTruthy();
  // SHA-256 of "abc": FIPS 180-4, the example of NIST
  const first = [...container.querySelectorAll('.fingerprint span')]
    .slice(0, 4)
    .map((one) => one.textContent);
  expect(first).toEqual(['BA', '78', '16', 'BF']);
  expect(screen.getByText(/^https?:\/\/judging\.test(:\d+)?\/authority\.crt$/)).toBeTruthy();
});

it('says where there is nothing to be trusted', async () => {
  answers(new Response(null, { status: 404 }));
  render(Trust);
  expect(await screen.findByText('Nothing has to be trusted here')).toBeTruthy();
});
