import { afterEach, describe, expect, it, vi } from 'vitest';
import { carried } from './carried';

const request = (path: string, init?: RequestInit) => new Request(new URL(path, location.origin), init);

/** A page as the server sent it just now; the window of the tests is older. */
function page(read: string, answer: unknown): void {
  vi.spyOn(performance, 'now').mockReturnValue(0);
  document.body.innerHTML = `<script type="application/json" data-read="${read}">${JSON.stringify(answer)}</script>`;
}

describe('what a page carries', () => {
  afterEach(() => {
    vi.restoreAllMocks();
    document.body.innerHTML = '';
  });

  it('answers a read once', async () => {
    page('/api/v1/contests?limit=200', { contests: [] });
    const answer = carried(request('/api/v1/contests?limit=200'));
    expect(answer?.ok).toBe(true);
    expect(await answer?.text()).toBe('{"contests":[]}');
    expect(carried(request('/api/v1/contests?limit=200'))).toBeUndefined();
  });
  it('answers nothing else', () => {
    page('/api/v1/contests?limit=200', {});
    expect(carried(request('/api/v1/contests'))).toBeUndefined();
    expect(carried(request('/api/v1/contests?limit=200', { method: 'POST' }))).toBeUndefined();
  });
  it('answers nothing when it is no longer true', () => {
    page('/api/v1/me', {});
    vi.spyOn(performance, 'now').mockReturnValue(60_000);
    expect(carried(request('/api/v1/me'))).toBeUndefined();
  });
});
