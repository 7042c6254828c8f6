import { describe, expect, it } from 'vitest';
import { EventReader, events, type StreamEvent } from './eventstream';

const event = (id: string, data: string, type = 'message'): StreamEvent => ({
  kind: 'event',
  id,
  type,
  data,
});

describe('EventReader', () => {
  it.each<[string, string[], StreamEvent[]]>([
    ['one event', ['id: e:7\ndata: {}\n\n'], [event('e:7', '{}')]],
    ['a piece ending anywhere', ['id: e', ':7\nda', 'ta: {"a":', '1}\n', '\n'], [event('e:7', '{"a":1}')]],
    ['line ends of three kinds', ['id:1\r\ndata:a\r\rdata:b\n\n'], [event('1', 'a'), event('1', 'b')]],
    ['a line end cut in two', ['data:a\r', '\n\r\n'], [event('', 'a')]],
    ['several lines of data', ['data: a\ndata: b\n\n'], [event('', 'a\nb')]],
    ['a type', ['event: change\ndata: x\n\n'], [event('', 'x', 'change')]],
    ['a comment', [': still here\n\n'], [{ kind: 'beat' }]],
    ['an event without data', ['id: 5\n\n'], []],
    ['an event without its end', ['data: a\n'], []],
  ])('reads %s', (_, pieces, want) => {
    const reader = new EventReader();
    expect(pieces.flatMap((piece) => reader.read(piece))).toEqual(want);
  });
});

it('decodes letters cut between two pieces', async () => {
  const bytes = new TextEncoder().encode('data: é\n\n');
  const body = new ReadableStream<Uint8Array>({
    start(controller) {
      controller.enqueue(bytes.slice(0, 7)); // the first of the two bytes of é is the seventh
      controller.enqueue(bytes.slice(7));
      controller.close();
    },
  });
  const got = [];
  for await (const one of events(body)) got.push(one);
  expect(got).toEqual([event('', 'é')]);
});
