/** Reading a Server-Sent Events stream from a response's text, comments included. */

/** One event; `beat` is a comment, which says only that the line is alive. */
export type StreamEvent = { kind: 'event'; id: string; type: string; data: string } | { kind: 'beat' };

/** Cuts text that comes in pieces into events, by the rules of the HTML standard. */
export class EventReader {
  #rest = '';
  #id = '';
  #type = '';
  #data: string[] = [];

  /** Takes the next piece and returns the events that it completes. */
  read(piece: string): StreamEvent[] {
    const lines = (this.#rest + piece).split(/\r\n|\n|\r(?!$)/);
    this.#rest = lines.pop() ?? '';
    return lines.flatMap((line) => this.#line(line));
  }

  #line(line: string): StreamEvent[] {
    if (line === '') return this.#dispatch();
    if (line.startsWith(':')) return [{ kind: 'beat' }];
    const [, field = line, value = ''] = /^([^:]*): ?(.*)$/s.exec(line) ?? [];
    if (field === 'data') this.#data.push(value);
    if (field === 'event') this.#type = value;
    if (field === 'id') this.#id = value;
    return [];
  }

  #dispatch(): StreamEvent[] {
    const data = this.#data.join('\n');
    const type = this.#type || 'message';
    const empty = this.#data.length === 0;
    this.#data = [];
    this.#type = '';
    return empty ? [] : [{ kind: 'event', id: this.#id, type, data }];
  }
}

/** The events of a response's body as they come. */
export async function* events(body: ReadableStream<Uint8Array>): AsyncGenerator<StreamEvent> {
  const reader = body.getReader();
  const text = new TextDecoder();
  const cut = new EventReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield* cut.read(text.decode(value, { stream: true }));
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}
