/** Was der Sprecher von einem Piloten erzählt. */

import type { toldWords } from './en-told';

const words: typeof toldWords = {
  told: {
    heading: 'Für den Sprecher',
    why: 'Der Sprecher liest das vor, während geflogen wird. Der Pilot und das Büro können es schreiben; nichts davon wird veröffentlicht, und keine Note hängt davon ab.',
    what: 'Worte für den Sprecher',
    thing: 'Pilot',
    note: 'Eine Zeile über den Piloten',
    own: 'Der Flug in den Worten des Piloten',
    ownOf: (category, programme) => `${category}, ${programme}, in den Worten des Piloten`,
    ownWhy:
      'Was das Publikum sehen wird und worauf es achten kann. Der Sprecher sieht es, sobald der Flug aufgerufen ist.',
    save: 'Speichern',
    saving: 'Wird gespeichert …',
    saved: 'Gespeichert.',
    kept: 'Noch nicht gespeichert; bleibt auf diesem Gerät.',
    found: 'Noch nicht gespeichert; es lag auf diesem Gerät.',
    notKept: 'Noch nicht gespeichert; dieser Browser behält nichts, wenn die Seite geschlossen wird.',
    discard: 'Verwerfen',
    changed:
      'Jemand hat das inzwischen geändert, und es wurde nicht gespeichert. Noch einmal speichern setzt Ihren Text an die Stelle dessen, was jetzt dort steht:',
    empty: 'Nichts.',
  },
};

export default words;
