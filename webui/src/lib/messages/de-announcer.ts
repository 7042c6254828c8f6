/** The words of the announcer's page, in German. */
import type { announcerWords } from './en-announcer';

const words: typeof announcerWords = {
  announcer: {
    title: 'Sprecher',
    what: 'Ansagen',
    heading: 'Sprecher',
    none: 'Niemand ist in der Luft oder aufgerufen',
    noneDo: 'Der Flug erscheint hier, sobald der Oberpunktrichter ihn aufruft.',
    status: {
      flying: 'In der Luft',
      called: 'Aufgerufen, fliegt als Nächster',
      interrupted: 'Unterbrochen',
      landed: 'Gelandet: Die Punktrichter unterschreiben ihre Bögen',
    },
    where: (category, programme) => `${category} · ${programme}`,
    flight: (n) => `Flug ${n}`,
    hors: 'Fliegt außer Konkurrenz: um keinen Platz.',
    clock: 'In der Luft seit',
    now: (n, of) => `Jetzt: ${n} von ${of}`,
    next: 'Danach',
    first: 'Beginnt mit',
    noItems: 'Was geflogen wird, lässt sich noch nicht zeigen.',
    noWords: 'Nicht beschrieben.',
    end: 'Das war die letzte Figur.',
    free: 'Ein Freestyle: vom Piloten beschrieben.',
    back: 'Zurück',
    forward: 'Nächste Figur',
    follow: 'Dorthin, wo die Punktrichter sind',
    follows:
      'Geht mit den Punktrichtern weiter. Leertaste oder → geht vor, ← zurück, Pos1 dorthin, wo die Punktrichter sind.',
    takes: 'Was es braucht',
    takesOf: (average) => `${average} im Mittel`,
    target: (points) => `für mehr als ${points} Punkte`,
    place: { 1: 'Für die Führung', 3: 'Für das Podest' },
    any: 'zurzeit genügt jede Wertung',
    certain: 'schon sicher, was auch geschieht',
    beyond: 'unerreichbar: Auch lauter Zehnen würden nicht genügen',
    byMean:
      'Über den ganzen Flug, mit K gewichtet. Das Programm wird nach dem Mittelwert gewertet, darum ist dies genau.',
    byGuide: (method) =>
      `Über den ganzen Flug, mit K gewichtet, nach dem einfachen Mittelwert. Die Methode des Programms ist ${method}: Dies ist ein Anhalt.`,
    methods: {
      'trimmed-mean': 'der gestutzte Mittelwert',
      normalised: 'die der normierten Summen',
      consensus: 'der Konsens',
    },
    hidden: 'Die Noten dieses Flugs sind bekannt, wenn er abgeschlossen ist.',
    standing: 'Rangliste bisher',
    noStanding: 'Noch ist kein Flug dieses Programms abgeschlossen.',
    order: 'Danach fliegen',
    orderNone: 'Danach fliegt in diesem Programm niemand mehr.',
    about: (time) => `gegen ${time}`,
  },
};

export default words;
