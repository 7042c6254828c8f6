import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { StreamEvent } from './eventstream';
import { followHeads, outdated, readHead, silenceMs, waitMs, type Head, type Line } from './heads';

describe('readHead', () => {
  it.each<[string, Head | undefined]>([
    ['e1:7', { epoch: 'e1', version: 7 }],
    ['0190:ab:12', { epoch: '0190:ab', version: 12 }],
    ['7', undefined],
    ['e1:', undefined],
    ['e1:x', undefined],
  ])('%s', (id, head) => expect(readHead(id)).toEqual(head));
});

describe('outdated', () => {
  const shown = { epoch: 'a', version: 5 };
  it.each([
    ['the same', { epoch: 'a', version: 5 }, false],
    ['a later version', { epoch: 'a', version: 6 }, true],
    ['an earlier one, told late', { epoch: 'a', version: 4 }, false],
    ['another epoch, whatever its version', { epoch: 'b', version: 2 }, true],
  ])('%s', (_, told, want) => expect(outdated(shown, told)).toBe(want));
});

describe('waitMs', () => {
  it('doubles up to half a minute, sooner by chance', () => {
    expect([0, 1, 2, 3, 4, 5, 9].map((n) => waitMs(n, 0))).toEqual([
      1000, 2000, 4000, 8000, 16000, 30000, 30000,
    ]);
    expect(waitMs(1, 1)).toBe(1000);
  });
});

/** A connection that the test feeds by hand. */
class Wire {
  #queue: StreamEvent[] = [];
  #wake = () => {};
  #over = false;
  readonly lastId: string;

  constructor(lastId: string, signal: AbortSignal) {
    this.lastId = lastId;
    signal.addEventListener('abort', () => this.end());
  }
  say(event: StreamEvent) {
    this.#queue.push(event);
    this.#wake();
  }
  end() {
    this.#over = true;
    this.#wake();
  }
  async *[Symbol.asyncIterator]() {
    for (;;) {
      const next = this.#queue.shift();
      if (next) yield next;
      else if (this.#over) throw new Error('cut');
      else await new Promise<void>((resolve) => (this.#wake = resolve));
    }
  }
}

describe('followHeads', () => {
  let wires: Wire[];
  let heads: Head[];
  let lines: Line['state'][];
  let stop: () => void;

  beforeEach(() => {
    vi.useFakeTimers();
    vi.spyOn(Math, 'random').mockReturnValue(0);
    wires = [];
    heads = [];
    lines = [];
    stop = followHeads(
      '/events',
      {
        head: (head) => heads.push(head),
        line: (line) => {
          if (lines.at(-1) !== line.state) lines.push(line.state);
        },
      },
      (_, lastId, signal) => {
        const wire = new Wire(lastId, signal);
        wires.push(wire);
        return wire;
      },
    );
  });
  afterEach(() => {
    stop();
    vi.useRealTimers();
    vi.restoreAllMocks();
  });

  const settle = (ms = 0) => vi.advanceTimersByTimeAsync(ms);
  const tell = (id: string) => wires.at(-1)?.say({ kind: 'event', id, type: 'message', data: '{}' });

  it('connects, then tells every head', async () => {
    await settle();
    tell('a:1');
    tell('a:2');
    await settle();
    expect(lines).toEqual(['connecting', 'live']);
    expect(heads).toEqual([
      { epoch: 'a', version: 1 },
      { epoch: 'a', version: 2 },
    ]);
  });

  it('comes back after a cut with the last id and tells what came between', async () => {
    await settle();
    tell('a:1');
    await settle();
    wires[0]?.end();
    await settle(999);
    expect(lines).toEqual(['connecting', 'live', 'lost']);
    expect(wires).toHaveLength(1);
    await settle(1);
    expect(wires[1]?.lastId).toBe('a:1');
    tell('a:9');
    await settle();
    expect(lines.at(-1)).toBe('live');
    expect(heads.at(-1)).toEqual({ epoch: 'a', version: 9 });
  });

  it('tells another epoch after a restore', async () => {
    await settle();
    tell('a:41');
    await settle();
    wires[0]?.end();
    await settle(1000);
    tell('b:3');
    await settle();
    expect(heads.at(-1)).toEqual({ epoch: 'b', version: 3 });
  });

  it('waits longer after each failure and starts over after a success', async () => {
    await settle();
    wires[0]?.end();
    await settle(1000);
    wires[1]?.end();
    await settle(1999);
    expect(wires).toHaveLength(2);
    await settle(1);
    expect(wires).toHaveLength(3);
    tell('a:1');
    await settle();
    wires[2]?.end();
    await settle(1000);
    expect(wires).toHaveLength(4);
  });

  it('takes silence for a dead line, but not while comments come', async () => {
    await settle();
    tell('a:1');
    await settle(silenceMs - 1);
    wires[0]?.say({ kind: 'beat' });
    await settle(silenceMs - 1);
    expect(lines.at(-1)).toBe('live');
    await settle(1);
    expect(lines.at(-1)).toBe('lost');
  });

  it('tries at once when the network is back', async () => {
    await settle();
    wires[0]?.end();
    await settle();
    dispatchEvent(new Event('online'));
    await settle();
    expect(wires).toHaveLength(2);
  });

  it('stops when told to', async () => {
    await settle();
    tell('a:1');
    await settle();
    stop();
    await settle(60_000);
    expect(wires).toHaveLength(1);
    expect(lines.at(-1)).toBe('live');
  });
});
