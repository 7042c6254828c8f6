/** The words of the running order, in German. */
import type { orderWords } from './en-order';

const times = (n: number) => (n === 1 ? 'einmal' : n === 2 ? 'zweimal' : `${n}-mal`);

const direction = (reversed: boolean) => (reversed ? 'der Beste zuletzt' : 'der Beste zuerst');

const words: typeof orderWords = {
  order: {
    heading: 'Startreihenfolge',
    what: 'Startreihenfolge',
    none: 'Es gibt noch keine Startreihenfolge',
    noneDo: 'Das Büro lost sie aus.',
    noneOffice:
      'Unten auslosen oder die Piloten einzeln einreihen. Mit ihr entstehen die Flüge und ein Platz für die eigene Figurenfolge jedes Piloten.',
    noneEntered: 'In dieser Kategorie ist noch niemand gemeldet: bitte zuerst die Piloten melden.',
    place: 'Start',
    flight: 'Flug',
    about: (time: string) => `etwa ${time}`,
    unknown: 'Wann ein Flug zu erwarten ist, steht hier, sobald drei Flüge begonnen haben.',
    pace: (minutes: string) =>
      `Die Zeiten sind erwartete, bei bisher ${minutes} Minuten von Flug zu Flug. Sie ändern sich mit dem Tempo.`,
    state: {
      waiting: '',
      called: 'aufgerufen',
      flying: 'in der Luft',
      interrupted: 'unterbrochen',
      flown: 'geflogen',
      'not-flown': 'nicht geflogen',
      withdrawn: 'zurückgezogen',
      disqualified: 'disqualifiziert',
    },

    drawn: {
      lot: 'Ausgelost.',
      standing: (of: string, reversed: boolean) => `Nach der Rangliste (${of}), ${direction(reversed)}.`,
      blocks: (of: string, size: number, reversed: boolean) =>
        `Ausgelost in Blöcken zu ${size} nach der Rangliste (${of}), ${direction(reversed)}.`,
      best: (n: number) => (n === 1 ? 'Nur der Beste fliegt.' : `Nur die besten ${n} fliegen.`),
      overall: 'Kategorie gesamt',
      programme: 'ein früheres Programm',
      seed: 'Startwert',
      times: (n: number) =>
        n === 1 ? 'Sie wurde einmal ausgelost.' : `Sie wurde ${times(n)} ausgelost; das letzte Mal gilt.`,
      moved: (n: number) => `Seitdem wurde sie ${times(n)} von Hand geändert.`,
      byHand: 'Von Hand gemacht.',
      bundle: 'So, wie sie mit dem Wettbewerb kam.',
      repeat: 'Wie sich die Auslosung wiederholen lässt',
      repeatHow:
        'Das Los jedes Piloten ist der SHA-256 aus Startwert, Zeilenvorschub und ID des Piloten, hexadezimal. Das niedrigste Los fliegt zuerst. Bei Blöcken wird jeder Block für sich so sortiert. Auf den meisten Rechnern:',
      ids: 'Die IDs der Piloten, in Startreihenfolge:',
    },

    move: {
      why: 'Aufgerufene Flüge behalten ihren Platz. Nummern bleiben bei ihren Piloten.',
      up: (name: string) => `${name} nach oben`,
      down: (name: string) => `${name} nach unten`,
      to: (name: string) => `Startplatz von ${name}`,
      out: 'Herausnehmen',
      outOf: (name: string) => `${name} herausnehmen`,
      late: 'Nicht in der Startreihenfolge',
      add: 'Am Ende anfügen',
      addWho: (name: string) => `${name} am Ende anfügen`,
      isAt: (name: string, place: number) => `${name} ist jetzt auf Startplatz ${place}.`,
      open: 'Was Sie sehen, ist noch nicht gespeichert.',
      stale:
        'Jemand anders hat die Startreihenfolge inzwischen geändert. Bitte die eigene verwerfen, um sie zu sehen.',
      keep: 'Diese Reihenfolge speichern',
      keeping: 'Wird gespeichert …',
      discard: 'Verwerfen',
      kept: 'Die Startreihenfolge ist gespeichert.',
      number: 'neu',
    },

    draw: {
      heading: 'Startreihenfolge auslosen',
      again: 'Neu auslosen',
      do: 'Auslosen',
      doing: 'Wird ausgelost …',
      done: 'Sie ist ausgelost.',
      blocked: 'Bitte zuerst speichern oder verwerfen, was von Hand geändert ist.',
      how: 'Wie',
      ways: {
        lot: 'Durch das Los',
        best: 'Nach der Rangliste, der Beste zuerst',
        last: 'Nach der Rangliste, der Beste zuletzt',
        blocks: 'Durch das Los in Blöcken der Rangliste, die Besten zuerst',
        'blocks-last': 'Durch das Los in Blöcken der Rangliste, die Besten zuletzt',
      },
      of: 'Welche Rangliste',
      overall: 'Kategorie gesamt',
      block: 'Piloten in einem Block',
      bestOnly: 'Nur so viele der Besten',
      bestOnlyWhy: 'Wenn nicht alle weiterkommen. Leer: alle.',
      seed: 'Startwert',
      seedWhy:
        'Leer: Es wird einer gemacht, den niemand kannte. Eingeben, wenn er öffentlich gezogen wurde oder eine Auslosung wiederholt wird.',
      counted: (n: number) =>
        `Sie wurde schon ${times(n)} ausgelost. Jede Auslosung wird für immer festgehalten.`,
    },
  },
};

export default words;
