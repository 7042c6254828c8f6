/** The words of keying paper sheets, in German. */
import type { keyingWords } from './en-keying';

interface Read {
  readings: number;
  own: boolean;
  entered: boolean;
  seat: { number: number };
  differences: unknown[];
}

const spoken: Record<string, string> = {
  HZ: 'harte Null',
  PZ: 'Wahrnehmungsnull',
  A: 'nicht gesehen',
  '': 'nichts',
};
const grade = (text: string) => spoken[text] ?? text;
/** The service says how a sheet is signed in English. */
const states: Record<string, string> = {
  'not signed': 'nicht unterschrieben',
  signed: 'unterschrieben',
  'signed, waiting for what the signature covers': 'die Unterschrift wartet auf Noten',
  'signed twice, with different values': 'zwei Unterschriften stimmen nicht überein',
  'reopened, to be signed again': 'wieder geöffnet',
  'the seat is absent': 'Sitz nicht besetzt',
};
const cells = (n: number) => (n === 1 ? 'einer Stelle' : `${n} Stellen`);

const words: typeof keyingWords = {
  keying: {
    what: 'Papierbögen',
    title: (flight: number) => `Papierbögen von Flug ${flight}`,
    lead: 'Jeder Bogen wird zweimal eingetippt, am besten von zwei Personen. Eingetragen wird nur, was beide gleich gelesen haben.',
    another: 'Papierbögen eines anderen Fluges',
    choose: 'Papierbögen: welcher Flug?',
    complete: 'alle Bögen sind da',
    toCome: 'noch nicht geflogen',
    seats: 'Sitze des Panels',
    seat: (n: number, name: string) => `Sitz ${n} · ${name}`,
    state: (s: { signed: boolean; readings: number; graded: number; items: number; state: string }) => {
      if (s.signed) return 'unterschrieben';
      if (s.readings === 1) return 'einmal gelesen';
      if (s.readings > 1) return 'Lesungen weichen ab';
      return s.graded > 0 ? `${s.graded} von ${s.items} auf dem Tablet` : (states[s.state] ?? s.state);
    },
    k: (k: number) => `K ${k}`,
    pad: (keys: readonly { key: string; code: string }[]) =>
      '75 oder 7.5 tippen; Enter geht weiter. ' +
      keys.map(({ key, code }) => `${key} ist ${grade(code)}`).join(', ') +
      '. Ein leeres Feld lässt stehen, was das Tablet hat.',
    there: (text: string) => `auf dem Tablet: ${grade(text)}`,
    differs: (first: string, last: string) => `erst gelesen: ${grade(first)}, dann: ${grade(last)}`,
    noGrade: 'Keine Note: 0 bis 10, in halben Punkten.',
    missing: 'Ein unterschriebener Bogen hat hier eine Note.',
    signed: 'Der Punktrichter hat den Papierbogen unterschrieben',
    signedDiffers: 'Die beiden Lesungen stimmen hierin nicht überein.',
    sending: 'Wird gesendet …',
    send: (readings: number) =>
      ['Erste Lesung speichern', 'Mit der ersten Lesung vergleichen'][readings] ?? 'Noch einmal vergleichen',
    reading: ({ readings, own, differences }: Read) => {
      if (readings === 0) return 'Erste Lesung.';
      if (readings === 1) {
        return own
          ? 'Zweite Lesung. Die erste ist von Ihnen: Besser macht diese jemand anders.'
          : 'Zweite Lesung.';
      }
      return `Die Lesungen weichen an ${cells(differences.length)} ab. Bitte noch einmal auf das Papier sehen und eintippen, was dort steht.`;
    },
    shut: (why: string) => `Hier kann nichts eingetippt werden: ${why}.`,
    done: ({ entered, seat, readings, differences }: Read) => {
      if (entered) return `Sitz ${seat.number}: Beide Lesungen stimmen überein, der Bogen ist eingetragen.`;
      if (readings === 1) return `Sitz ${seat.number}: Die erste Lesung ist gespeichert.`;
      return `Sitz ${seat.number}: Die Lesungen weichen an ${cells(differences.length)} ab.`;
    },
    forget: 'Diese Lesungen verwerfen',
    forgetWhy: 'Der Bogen wird dann neu gelesen, zweimal.',
    forgotten: 'Die Lesungen sind verworfen.',
  },
};

export default words;
