/**
 * SHA-256 (FIPS 180-4), computed at once. The browser's own answers later, and
 * on secure pages only; a sheet's state must not have to wait for either.
 */

/** The first 32 bits of the fractional parts of the nth roots of the first primes. */
function roots(count: number, power: number): number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n++) {
    if (primes.every((p) => n % p !== 0)) primes.push(n);
  }
  return primes.map((p) => ((p ** power % 1) * 2 ** 32) | 0);
}

const initial = roots(8, 1 / 2);
const constants = roots(64, 1 / 3);

const right = (x: number, n: number) => (x >>> n) | (x << (32 - n));
const at = (words: ArrayLike<number>, i: number) => words[i] as number;

/** The digest of a text's UTF-8 bytes, in lower-case hexadecimal. */
export function sha256(text: string): string {
  const bytes = padded(new TextEncoder().encode(text));
  const state = Int32Array.from(initial);
  for (let start = 0; start < bytes.byteLength; start += 64) mix(state, schedule(bytes, start));
  return [...state].map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

function padded(message: Uint8Array): DataView {
  const view = new DataView(new ArrayBuffer(((message.length + 8) >> 6) * 64 + 64));
  new Uint8Array(view.buffer).set(message);
  view.setUint8(message.length, 0x80);
  view.setBigUint64(view.byteLength - 8, BigInt(message.length) * 8n);
  return view;
}

function schedule(bytes: DataView, start: number): Int32Array {
  const w = new Int32Array(64);
  for (let i = 0; i < 16; i++) w[i] = bytes.getInt32(start + 4 * i);
  for (let i = 16; i < 64; i++) {
    const [a, b] = [at(w, i - 15), at(w, i - 2)];
    const s0 = right(a, 7) ^ right(a, 18) ^ (a >>> 3);
    const s1 = right(b, 17) ^ right(b, 19) ^ (b >>> 10);
    w[i] = at(w, i - 16) + s0 + at(w, i - 7) + s1;
  }
  return w;
}

function mix(state: Int32Array, w: Int32Array): void {
  let [a, b, c, d, e, f, g, h] = state as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  for (let i = 0; i < 64; i++) {
    const s1 = right(e, 6) ^ right(e, 11) ^ right(e, 25);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + at(constants, i) + at(w, i)) | 0;
    const s0 = right(a, 2) ^ right(a, 13) ^ right(a, 22);
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
  }
  for (const [i, value] of [a, b, c, d, e, f, g, h].entries()) state[i] = at(state, i) + value;
}
