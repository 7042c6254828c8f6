import { afterEach, describe, expect, it } from 'vitest';
import type { PaperSheet } from './service';
import { nextSeat, Typing } from './typing.svelte';

const item = (number: number) => ({
  number,
  kind: 'figure' as const,
  k: 10,
  elements: [],
  name: `F${number}`,
});

function sheet(more: Partial<PaperSheet> = {}): PaperSheet {
  return {
    flight: 'f',
    seat: { number: 1, judge: { id: 'j', name: 'Judge' } },
    state: 'not signed',
    entered: false,
    readings: 0,
    own: false,
    items: [item(1), item(2), item(3)],
    grades: ['', '', ''],
    read: [],
    signed: false,
    differences: [],
    ...more,
  };
}

function typed(typing: Typing, ...texts: string[]): Typing {
  texts.forEach((text, i) => typing.type(i, text));
  return typing;
}

describe('a paper sheet while it is typed', () => {
  afterEach(() => localStorage.clear());

  it('is sent as grades, however they are typed', () => {
    const typing = typed(new Typing(sheet()), '75', '/', '10');
    expect(typing.reading()).toMatchObject({
      signed: true,
      entries: [{ grade: '7.5' }, { grade: 'HZ' }, { grade: '10.0' }],
    });
  });

  it('says what is no grade, and what a signed sheet lacks', () => {
    const typing = typed(new Typing(sheet({ grades: ['', '', '8.0'] })), '7.3', '', '');
    expect(typing.wrong).toEqual([0]);
    expect(typing.missing).toEqual([1]);
    typing.sign(false);
    expect(typing.missing).toEqual([]);
  });

  it('comes back after a reload, as the same reading', () => {
    const before = typed(new Typing(sheet()), '75', '80');
    const after = new Typing(sheet());
    expect(after.texts).toEqual(['75', '80', '']);
    expect(after.reading().id).toBe(before.reading().id);
  });

  it('begins anew once it was sent, and where another reading came first', () => {
    typed(new Typing(sheet()), '75');
    expect(new Typing(sheet({ readings: 1 })).texts).toEqual(['', '', '']);
    typed(new Typing(sheet()), '75').done();
    expect(new Typing(sheet()).texts).toEqual(['', '', '']);
  });

  it('has what two readings agree on', () => {
    const typing = new Typing(sheet({ readings: 2, read: ['7.5', '', 'HZ'], signed: true }));
    expect(typing.texts).toEqual(['7.5', '', 'HZ']);
  });
});

describe('the seat to go on with', () => {
  const seats = [
    { signed: true, readings: 0 },
    { signed: false, readings: 1 },
    { signed: false, readings: 0 },
    { signed: false, readings: 2 },
  ];
  it('is one whose paper nobody has read', () => expect(nextSeat(seats, 2)).toBe(seats[2]));
  it('is else the next that waits', () => {
    const read = seats.map((seat) => ({ ...seat, readings: Math.max(1, seat.readings) }));
    expect(nextSeat(read, 1)).toBe(read[2]);
    expect(nextSeat(read, 3)).toBe(read[1]);
  });
  it('is none where all are signed', () =>
    expect(nextSeat([{ signed: true, readings: 0 }], 0)).toBeUndefined());
});
