/** Base45 (RFC 9285): bytes in the characters that a QR code holds most densely. */

const digits = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:';

export function toBase45(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 2) {
    const [high = 0, low] = [bytes[i], bytes[i + 1]];
    text += low === undefined ? written(high, 2) : written(high * 256 + low, 3);
  }
  return text;
}

/** Writes a number with its lowest digit first. */
function written(n: number, length: number): string {
  let text = '';
  for (; length > 0; length--, n = Math.floor(n / 45)) text += digits[n % 45];
  return text;
}

/** The bytes of a text; throws where it is none. */
export function fromBase45(text: string): Uint8Array {
  const bytes: number[] = [];
  for (let i = 0; i < text.length; i += 3) {
    const part = text.slice(i, i + 3);
    const n = read(part);
    const most = part.length === 3 ? 0xffff : 0xff;
    if (part.length === 1 || n > most) throw new Error('not base45');
    bytes.push(...(part.length === 3 ? [n >> 8, n & 0xff] : [n]));
  }
  return Uint8Array.from(bytes);
}

function read(part: string): number {
  return [...part].reduceRight((n, digit) => {
    const at = digits.indexOf(digit);
    if (at < 0) throw new Error('not base45');
    return n * 45 + at;
  }, 0);
}
