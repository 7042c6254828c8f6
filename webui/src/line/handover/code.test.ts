import encodeQR from 'qr';
import decodeQR from 'qr/decode.js';
import { describe, expect, it } from 'vitest';
import { seeded, shuffled } from '../../lib/fixtures/chance';
import { newId } from '../make';
import type { LineRecord } from '../records/record';
import { fromBase45, toBase45 } from './base45';
import { framesOf, Gatherer, type HandOver } from './code';

// RFC 9285, 4.3 and 4.4.
const published = [
  ['AB', 'BB8'],
  ['Hello!!', '%69 VD92EX0'],
  ['base-45', 'UJCLQE7W581'],
  ['ietf!', 'QED8WEX0'],
] as const;

describe('base45', () => {
  it.each(published)('%s', (text, written) => {
    expect(toBase45(new TextEncoder().encode(text))).toBe(written);
    expect(new TextDecoder().decode(fromBase45(written))).toBe(text);
  });

  it.each(['GGW', '::', 'A', 'abc', 'Ä00'])('%j is none', (text) => {
    expect(() => fromBase45(text)).toThrow();
  });
});

/** A signed sheet of so many items, with remarks that deflate badly. */
function sheet(items: number): HandOver {
  const records = Array.from({ length: items }, (_, i): LineRecord => ({
    seq: i + 1,
    id: newId(),
    kind: 'grade',
    flight: newId(),
    judge: newId(),
    item: i + 1,
    grade: '7.5',
    remark: `spät, über-rotiert ✈ ${crypto.randomUUID()}`,
    signature: Buffer.from(crypto.getRandomValues(new Uint8Array(64))).toString('base64url'),
  }));
  return { device: newId(), store: newId(), records };
}

describe('a hand-over', () => {
  it('comes out of its frames as it went in, in any order, mixed with another', async () => {
    const [one, other] = [sheet(12), sheet(3)];
    const frames = shuffled([...(await framesOf(one)), ...(await framesOf(other))], seeded(3));
    const gatherer = new Gatherer();
    const whole: string[] = [];
    for (const frame of [...frames, ...frames.slice(0, 2)]) {
      const taken = gatherer.take(frame);
      if (taken?.there === taken?.of && taken && !whole.includes(taken.sum)) whole.push(taken.sum);
    }
    const opened = await Promise.all(whole.map((sum) => gatherer.open(sum)));
    expect(new Set(opened.map(({ device }) => device))).toEqual(new Set([one.device, other.device]));
    expect(opened.find(({ device }) => device === one.device)).toEqual(one);
  });

  it('fits into codes that a camera reads', async () => {
    for (const frame of await framesOf(sheet(12))) {
      expect(frame.length).toBeLessThan(600);
      const size = encodeQR(frame, 'raw', { ecc: 'medium', border: 4 }).length - 8;
      expect(size).toBeLessThanOrEqual(17 * 4 + 21); // ISO/IEC 18004: version 18, 4 modules more with each
      expect(decodeQR(picture(frame))).toBe(frame);
    }
  });

  it('is no frame, or not whole', async () => {
    const gatherer = new Gatherer();
    expect(gatherer.take('https://example.org/')).toBeUndefined();
    expect(gatherer.take('HALFPOINT/1/0123ABCD/3/2/ABC')).toBeUndefined();
    const [first = ''] = await framesOf(sheet(1));
    const wrong = first.slice(0, -3) + '000';
    const taken = gatherer.take(wrong);
    await expect(gatherer.open(taken?.sum ?? '')).rejects.toThrow();
  });
});

/** A code as a camera would see it, four pixels a module. */
function picture(text: string) {
  const bits = encodeQR(text, 'raw', { ecc: 'medium', border: 4, scale: 4 });
  const size = bits.length;
  const data = new Uint8Array(size * size * 4).fill(255);
  bits.forEach((row, y) =>
    row.forEach((dark, x) => dark && data.fill(0, (y * size + x) * 4, (y * size + x) * 4 + 3)),
  );
  return { width: size, height: size, data };
}
