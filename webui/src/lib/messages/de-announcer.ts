/** Die Seite des Sprechers. */

import type { announcerWords } from './en-announcer';

const words: typeof announcerWords = {
  announcer: {
    what: 'Ansage',
    heading: 'Sprecher',
    none: 'Niemand wird gerade bewertet',
    noneDo: 'Der Flug erscheint hier, sobald der Oberpunktrichter ihn aufruft.',
    status: {
      flying: 'In der Luft',
      called: 'Aufgerufen, fliegt als Nächstes',
      interrupted: 'Unterbrochen',
      landed: 'Gelandet: Die Punktrichter unterschreiben ihre Bögen',
      closed: 'Abgeschlossen: Gerade wird niemand bewertet',
    },
    where: (category, programme) => `${category} · ${programme}`,
    flight: (n) => `Flug ${n}`,
    hors: 'Fliegt außer Konkurrenz: ohne Platz.',
    clock: 'In der Luft seit',
    flown: 'War in der Luft',
    now: (n, of) => `Jetzt: ${n} von ${of}`,
    next: 'Danach',
    first: 'Beginnt mit',
    noItems: 'Was geflogen wird, kann noch nicht gezeigt werden.',
    noWords: 'Nicht beschrieben.',
    end: 'Das war die letzte Figur.',
    own: 'In den Worten des Piloten',
    free: 'Ein Freestyle: Der Pilot hat ihn nicht beschrieben.',
    marks: 'Was die Punktrichter bewerten',
    back: 'Zurück',
    forward: 'Nächste Figur',
    follow: 'Dorthin, wo die Punktrichter sind',
    follows:
      'Geht mit den Punktrichtern weiter. Leertaste oder → geht weiter, ← zurück, Pos1 dorthin, wo die Punktrichter sind.',
    takes: 'Was es braucht',
    takesOf: (average) => `${average} im Schnitt`,
    target: (points) => `für mehr als ${points} Punkte`,
    place: { 1: 'Für die Führung', 3: 'Für einen Platz unter den ersten drei' },
    any: 'vorerst genügt jede Wertung',
    certain: 'schon sicher, was auch kommt',
    beyond: 'nicht mehr zu erreichen: Selbst Zehnen würden nicht genügen',
    byMean: 'Über den ganzen Flug, mit K gewichtet. Das Programm rechnet mit dem Mittelwert, also genau.',
    byGuide: (method) =>
      `Über den ganzen Flug, mit K gewichtet, nach dem einfachen Mittel. Das Programm rechnet mit: ${method}; also ein Anhalt.`,
    methods: {
      'trimmed-mean': 'gestutzter Mittelwert',
      normalised: 'normierte Summen',
      consensus: 'Konsens',
    },
    hidden: 'Die Noten dieses Fluges sind bekannt, wenn er abgeschlossen ist.',
    points: (score) => `${score} Punkte`,
    rank: (rank, of) => `Platz ${rank} von bisher ${of}`,
    noScore: 'Eine Wertung hat er noch nicht.',
    standing: 'Zwischenstand',
    noStanding: 'Noch ist kein Flug dieses Programms abgeschlossen.',
    order: 'Danach fliegen',
    orderNone: 'Danach niemand mehr in diesem Programm.',
    about: (time) => `etwa ${time}`,
  },
};

export default words;
