/**
 * Records as QR codes, for the day on which the network does not come back: the
 * delivery as it would have been sent, deflated, in frames that a camera reads
 * in any order. A frame is `HALFPOINT/1/<sum>/<frame>/<frames>/<base45>`, all in
 * the characters of a QR code's alphanumeric mode; the sum is the first eight
 * digits of the SHA-256 of what all frames together hold.
 */

import type { LineRecord } from '../records/record';
import { fromBase45, toBase45 } from './base45';

/** What a device hands over; whoever brings it, the records' signatures say whose they are. */
export interface HandOver {
  device: string;
  store: string;
  records: LineRecord[];
}

const mark = 'HALFPOINT/1';
/** Characters in a frame, few enough for a camera that is held by hand. */
const most = 540;

export async function framesOf(handOver: HandOver): Promise<string[]> {
  const packed = await through(
    new CompressionStream('deflate-raw'),
    encoder.encode(JSON.stringify(handOver)),
  );
  const [sum, text] = [await sumOf(packed), toBase45(packed)];
  const count = Math.max(1, Math.ceil(text.length / most));
  return Array.from({ length: count }, (_, i) =>
    [mark, sum, i + 1, count, text.slice(i * most, (i + 1) * most)].join('/'),
  );
}

/** Puts frames together again, whichever comes first; those of several devices may be mixed. */
export class Gatherer {
  #sets = new Map<string, string[]>();

  /** Takes what a camera read: how much is there of the set that it belongs to; nothing where it is no frame. */
  take(read: string): { sum: string; there: number; of: number } | undefined {
    const found = /^HALFPOINT\/1\/([0-9A-F]{8})\/(\d{1,3})\/(\d{1,3})\/([0-9A-Z $%*+\-./:]*)$/.exec(read);
    if (!found) return undefined;
    const [, sum = '', frame, frames, text = ''] = found;
    const [at, of] = [Number(frame), Number(frames)];
    const set = this.#sets.get(sum) ?? (Array(of) as string[]);
    if (set.length !== of || at < 1 || at > of) return undefined;
    set[at - 1] = text;
    this.#sets.set(sum, set);
    return { sum, there: set.filter((one) => one !== undefined).length, of };
  }

  /** What a whole set holds; throws where it is not what was shown. */
  async open(sum: string): Promise<HandOver> {
    const packed = fromBase45((this.#sets.get(sum) ?? []).join(''));
    if ((await sumOf(packed)) !== sum) throw new Error('the codes do not belong together');
    const text = decoder.decode(await through(new DecompressionStream('deflate-raw'), packed));
    return JSON.parse(text) as HandOver;
  }
}

const encoder = new TextEncoder();
const decoder = new TextDecoder();

async function through(
  stream: CompressionStream | DecompressionStream,
  bytes: Uint8Array,
): Promise<Uint8Array> {
  const writing = stream.writable.getWriter();
  // A fault shows where the other end is read.
  void writing.write(bytes as BufferSource).catch(() => undefined);
  void writing.close().catch(() => undefined);
  return new Uint8Array(await new Response(stream.readable).arrayBuffer());
}

async function sumOf(bytes: Uint8Array): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as BufferSource));
  return [...digest.slice(0, 4)]
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('')
    .toUpperCase();
}
