/**
 * Follows a contest's head: the epoch and version of everything in it. The
 * server tells the present head on connecting and every later one, so a lost
 * connection loses nothing: whoever shows something reads it again when the
 * head told is not the head shown.
 */

import { events, type StreamEvent } from './eventstream';

/** A contest's state: another epoch means that the server was restored. */
export interface Head {
  epoch: string;
  version: number;
}

/** How the line to the server stands. */
export type Line = { state: 'connecting' } | { state: 'live' } | { state: 'lost'; since: Date };

/** What the follower tells. */
export interface Listener {
  head(head: Head): void;
  line(line: Line): void;
}

/** Opens a stream of events; ends or throws when the connection does. */
export type Open = (url: string, lastId: string, signal: AbortSignal) => AsyncIterable<StreamEvent>;

/** The server says something every 15 s; silence this long means that the line is dead. */
export const silenceMs = 40_000;

/** How long to wait before try n (from 0): 1 s, doubling, at most 30 s, up to half of it sooner by chance. */
export function waitMs(n: number, chance = Math.random()): number {
  return Math.min(30_000, 1000 * 2 ** n) * (1 - chance / 2);
}

/** Reads `epoch:version`, or nothing where the text is something else. */
export function readHead(id: string): Head | undefined {
  const [, epoch, version] = /^(.+):(\d+)$/.exec(id) ?? [];
  return epoch === undefined ? undefined : { epoch, version: Number(version) };
}

/** True where what was read at `shown` may not be what there is at `told`. */
export function outdated(shown: Head, told: Head): boolean {
  return shown.epoch !== told.epoch || shown.version < told.version;
}

/** Follows until the returned function is called. */
export function followHeads(url: string, listener: Listener, open: Open = openStream): () => void {
  const stop = new AbortController();
  void keepOpen(url, listener, open, stop.signal);
  return () => stop.abort();
}

async function keepOpen(url: string, listener: Listener, open: Open, stopped: AbortSignal): Promise<void> {
  let lastId = '';
  let failures = 0;
  let lostSince: Date | undefined;
  listener.line({ state: 'connecting' });
  while (!stopped.aborted) {
    for await (const event of untilSilent(url, lastId, open, stopped)) {
      if (stopped.aborted) return;
      failures = 0;
      lostSince = undefined;
      listener.line({ state: 'live' });
      const head = event.kind === 'event' ? readHead(event.id) : undefined;
      if (!head) continue;
      lastId = `${head.epoch}:${head.version}`;
      listener.head(head);
    }
    if (stopped.aborted) return;
    lostSince ??= new Date();
    listener.line({ state: 'lost', since: lostSince });
    await pause(waitMs(failures++), stopped);
  }
}

/** A connection's events until it ends, breaks or falls silent; never throws. */
async function* untilSilent(url: string, lastId: string, open: Open, stopped: AbortSignal) {
  const silent = new AbortController();
  let timer = setTimeout(() => silent.abort(), silenceMs);
  try {
    for await (const event of open(url, lastId, AbortSignal.any([stopped, silent.signal]))) {
      clearTimeout(timer);
      timer = setTimeout(() => silent.abort(), silenceMs);
      yield event;
    }
  } catch {
    // Whatever broke it, the answer is the same: say so and try again.
  } finally {
    clearTimeout(timer);
  }
}

/** Waits, but not past a sign that the network or the reader is back. */
function pause(ms: number, stopped: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const done = new AbortController();
    const finish = () => {
      clearTimeout(timer);
      done.abort();
      resolve();
    };
    const timer = setTimeout(finish, ms);
    stopped.addEventListener('abort', finish, { signal: done.signal });
    addEventListener('online', finish, { signal: done.signal });
    document.addEventListener('visibilitychange', finish, { signal: done.signal });
  });
}

async function* openStream(url: string, lastId: string, signal: AbortSignal): AsyncGenerator<StreamEvent> {
  const headers: Record<string, string> = { accept: 'text/event-stream' };
  if (lastId !== '') headers['last-event-id'] = lastId;
  const response = await fetch(url, { headers, signal, cache: 'no-store' });
  if (!response.ok || !response.body) throw new Error(`the stream answered ${response.status}`);
  yield* events(response.body);
}
