/** The words of keying paper sheets. */

interface Read {
  readings: number;
  own: boolean;
  entered: boolean;
  seat: { number: number };
  differences: unknown[];
}

const spoken: Record<string, string> = {
  HZ: 'hard zero',
  PZ: 'perception zero',
  A: 'not seen',
  '': 'nothing',
};
const grade = (text: string) => spoken[text] ?? text;
const cells = (n: number) => (n === 1 ? 'one place' : `${n} places`);

export const keyingWords = {
  keying: {
    what: 'the paper sheets',
    title: (flight: number) => `Paper sheets of flight ${flight}`,
    lead: 'Each sheet is typed twice, best by two people. Only what both read alike is entered.',
    another: 'Paper sheets of another flight',
    choose: 'Paper sheets: which flight?',
    complete: 'all sheets are in',
    toCome: 'not flown yet',
    seats: 'Seats of the panel',
    seat: (n: number, name: string) => `Seat ${n} · ${name}`,
    state: (s: { signed: boolean; readings: number; graded: number; items: number; state: string }) => {
      if (s.signed) return 'signed';
      if (s.readings === 1) return 'read once';
      if (s.readings > 1) return 'readings differ';
      return s.graded > 0 ? `${s.graded} of ${s.items} on the tablet` : s.state;
    },
    k: (k: number) => `K ${k}`,
    pad: (keys: readonly { key: string; code: string }[]) =>
      'Type 75 or 7.5; Enter goes on. ' +
      keys.map(({ key, code }) => `${key} is ${grade(code)}`).join(', ') +
      '. A field left empty keeps what the tablet has.',
    there: (text: string) => `the tablet has ${grade(text)}`,
    differs: (first: string, last: string) => `read as ${grade(first)}, then as ${grade(last)}`,
    noGrade: 'Not a grade: 0 to 10 in halves.',
    missing: 'A signed sheet has a grade here.',
    signed: 'The judge has signed the paper',
    signedDiffers: 'The two readings do not agree on this.',
    sending: 'Sending …',
    send: (readings: number) =>
      ['Keep the first reading', 'Compare with the first reading'][readings] ?? 'Compare again',
    reading: ({ readings, own, differences }: Read) => {
      if (readings === 0) return 'First reading.';
      if (readings === 1) {
        return own
          ? 'Second reading. You made the first one: better somebody else makes this one.'
          : 'Second reading.';
      }
      return `The readings differ in ${cells(differences.length)}. Look at the paper again and type what it says there.`;
    },
    shut: (why: string) => `Nothing can be keyed here: ${why}.`,
    done: ({ entered, seat, readings, differences }: Read) => {
      if (entered) return `Seat ${seat.number}: both readings agree, the sheet is entered.`;
      if (readings === 1) return `Seat ${seat.number}: the first reading is kept.`;
      return `Seat ${seat.number}: the readings differ in ${cells(differences.length)}.`;
    },
    forget: 'Throw these readings away',
    forgetWhy: 'The sheet is then read anew, twice.',
    forgotten: 'The readings are thrown away.',
  },
};
