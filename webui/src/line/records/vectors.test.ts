import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { seeded, shuffled } from '../../lib/fixtures/chance';
import { check } from './check';
import { sheetDigest, sheetText, type Entry } from './digest';
import { compareText, type Stored } from './record';
import { resolve } from './resolve';
import { sha256 } from './sha256';
import type { Setup } from './state';

const read = (name: string) => JSON.parse(readFileSync(`../testdata/line/${name}.json`, 'utf8'));

interface Vector {
  name: string;
  why: string;
  setup: Setup;
  records: Stored[];
  state: unknown;
}

// What is left out where it is false, empty or 0, as testdata/line/README.md says.
const always = new Set(['attempts', 'sheets', 'cells', 'status', 'counting', 'count', 'points']);

function asWritten(key: string, value: unknown): unknown {
  if (key === '' || always.has(key) || /^\d+$/.test(key)) return value;
  const empty = !value || (Array.isArray(value) && value.length === 0);
  return empty ? undefined : value;
}

const plain = (state: unknown) => JSON.parse(JSON.stringify(state, asWritten));

const files = ['grades', 'signatures', 'held', 'flights', 'officials', 'moving'];
for (const file of files) {
  describe(file, () => {
    for (const vector of (read(file) as { vectors: Vector[] }).vectors) {
      const { name, why, setup, records, state } = vector;
      it(name, () => {
        const before = JSON.stringify(vector);
        expect(plain(resolve(setup, records)), why).toEqual(plain(state));
        const chance = seeded(1);
        for (let n = 0; n < 6; n++) {
          const again = shuffled([...records, ...structuredClone(records)], chance);
          expect(plain(resolve(setup, again)), `shuffled and doubled: ${why}`).toEqual(plain(state));
        }
        expect(JSON.stringify(vector), 'nothing given is changed').toBe(before);
      });
    }
  });
}

it('answers contests played at random as the service does', () => {
  for (const { name, setup, records, state } of (read('played') as { vectors: Vector[] }).vectors) {
    expect(plain(resolve(setup, records)), name).toEqual(plain(state));
  }
});

interface Check {
  name: string;
  record: Stored;
  faults: string[];
}

it('finds what is wrong with a record', () => {
  const all = (read('checks') as { vectors: Check[] }).vectors;
  expect(all.length).toBeGreaterThan(50);
  for (const { name, record, faults } of all) {
    const found = check(record).map((fault) => fault.field);
    expect(found.sort(), name).toEqual(faults);
  }
});

interface SheetVector {
  name: string;
  contest: string;
  flight: string;
  judge: string;
  sequence: string;
  entries: Entry[];
  text: string;
  digest: string;
}

it('writes and digests the signed text', () => {
  for (const v of (read('digests') as { sheets: SheetVector[] }).sheets) {
    const of = [v.contest, v.flight, v.judge, v.sequence, v.entries] as const;
    expect(sheetText(...of), v.name).toBe(v.text);
    expect(sheetDigest(...of), v.name).toBe(v.digest);
  }
});

it('compares texts by their characters', () => {
  const sorted = ['', 'J', 'J1', 'j', '\u{e9}', '\u{ff5e}', '\u{1f600}', '\u{1f600}a'];
  expect(shuffled(sorted, seeded(7)).sort(compareText)).toEqual(sorted);
});

describe('SHA-256', () => {
  it('is that of the standard', () => {
    // FIPS 180-2, appendix B.1 and B.2.
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(sha256('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    );
  });

  it('is that of another implementation at every length', () => {
    for (let n = 0; n < 200; n++) {
      const text = 'é'.repeat(n);
      expect(sha256(text)).toBe(createHash('sha256').update(text).digest('hex'));
    }
  });
});
