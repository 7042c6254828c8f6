/** One tab of a browser works at a time; the others are told what it does. */

/**
 * Works as soon as no other tab does under the same name, until called off.
 * `elsewhere` is told at once where another one does now.
 */
export async function alone(
  name: string,
  signal: AbortSignal,
  work: (signal: AbortSignal) => Promise<void>,
  elsewhere: () => void,
): Promise<void> {
  const { locks } = navigator;
  const here = await locks.request(name, { ifAvailable: true }, async (lock) => {
    if (lock) await work(signal);
    return lock !== null;
  });
  if (here || signal.aborted) return;
  elsewhere();
  await locks.request(name, { signal }, () => work(signal)).catch(ignoreAbort);
}

function ignoreAbort(thrown: unknown): void {
  if (!(thrown instanceof DOMException && thrown.name === 'AbortError')) throw thrown;
}

/** Tells the other tabs of this browser that something changed, and hears it from them. */
export class Tabs {
  #closed = false;
  #channel = new BroadcastChannel('halfpoint-line');

  constructor(changed: () => void) {
    this.#channel.onmessage = changed;
  }

  /** Does nothing once closed. */
  tell(): void {
    if (!this.#closed) this.#channel.postMessage('changed');
  }

  close(): void {
    this.#closed = true;
    this.#channel.close();
  }
}
