/** Wie eine Wertung zustande kommt. */

import type { methodWords } from './en-method';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

/** The methods, as the service names them. */
const names: Record<string, string> = {
  mean: 'Mittelwert',
  'trimmed-mean': 'gestutzter Mittelwert',
  normalised: 'normierte Summen',
  consensus: 'Konsens',
};

const words: typeof methodWords = {
  working: {
    what: 'Rechenweg',
    thing: 'Wertung',
    heading: (name) => `Wie die Wertung von ${name} zustande kam`,
    chosen: 'Wessen Wertung',
    published: (n, state) => `Veröffentlichung ${n}, ${state}`,
    live: 'live, wie es jetzt steht',
    calculator:
      'Jede Zahl ist so gerundet, wie sie dasteht, und die nächste folgt aus dem, was dasteht: Ein Taschenrechner kommt auf die Wertung.',
    tolerance: (decimals) =>
      `Ein nachgerechneter Wert kann in der letzten, der ${decimals}. Nachkommastelle um eins abweichen; die Wertung kommt genau heraus.`,
    toSheet: 'Der Wertungsbogen',
    toMethods: 'Die vier Methoden, und wie genau sie sind',
    fallback: (asked, used) =>
      `Eingestellt war: ${names[asked] ?? asked}. Dafür gab es zu wenige Sitze oder vollständige Flüge; gerechnet wurde mit: ${names[used] ?? used}.`,
    steps: 'Schritt für Schritt',
    figure: 'Figur',
    k: 'K',
    seat: (n) => `Sitz ${n}`,
    value: 'Wert',
    points: 'K × Wert',
    used: 'gerechnet als',
    trust: 'Vertrauen',
    share: 'Anteil am Panel',
    sum: 'Summe',
    noGrades:
      'Nicht bestätigte Kürzel, und was ein Sitz nicht gesehen hat, sind Lücken: Sie zählen in der Zeile nicht.',
    filled: 'Eine Lücke hat das Mittel der anderen Noten der Zeile.',
    zeros: 'zählt 0',
    fit: 'wie angepasst',
    total: 'Summe',
    discarded: 'weggelassen',
    noTotal: 'keine Summe',
    panelScore: 'Wertung des Panels',
    penalty: (kind, count, points) => (count === 1 ? kind : `${kind}, ${count} mal ${points}`),
    score: 'Wertung, auf zwei Stellen gerundet',
    floor: 'Eine Wertung liegt nie unter 0.',
    percent: (score, best, percent) =>
      `${score} von ${best}, dem Zehnfachen der Summe der K: 100 × ${score} / ${best} = ${percent} %.`,
    one: (item) => `Ausgerechnet für ${item}`,
    mean: {
      words: ['Der Wert jeder Zeile ist das Mittel der Noten, die zählen; K mal der Wert sind ihre Punkte.'],
      line: (sum, n, value) => `(${sum}) / ${n} = ${value}`,
    },
    trimmed: {
      words: [
        'In jeder Zeile werden die niedrigste und die höchste Note weggelassen, wo mindestens drei bleiben. Der Wert ist das Mittel der übrigen, und K mal der Wert sind ihre Punkte.',
      ],
    },
    weighted: {
      words: [
        'Zuerst werden das eigene Niveau und die eigene Streuung jedes Sitzes abgezogen, damit strenge und milde Sitze gleich sind: Darunter steht, als was eine Note gerechnet wird. Das ergibt sich aus allen Flügen des Programms zusammen und ist aus einem einzelnen Bogen nicht zu finden.',
        'Dann wird jede Note gewichtet: mit dem Anteil des Sitzes am Panel, der umso größer ist, je besser der Sitz mit dem übereinstimmt, was das Panel sieht; und damit, wie weit gerade dieser Note vertraut wird, von 0 bis 1: umso weniger, je weiter sie vom Wert des Panels liegt, und weniger, wo ein Sitz für oder gegen den Piloten neigt.',
        'Der Wert der Zeile ist das Mittel dessen, als was die Noten gerechnet werden, jede gewichtet mit Anteil × Vertrauen, zwischen 0 und 10 gehalten. K mal der Wert sind ihre Punkte.',
      ],
      line: (up, down, value) => `(${up}) / (${down}) = ${value}`,
      rounds:
        'Anteile, Vertrauen und Werte hängen voneinander ab: Das Programm findet sie zusammen, in Runden, bis sich kein Wert mehr um 10⁻⁹ bewegt. Gezeigt sind die Zahlen der letzten Runde.',
    },
    totals: {
      words: [
        'Die Summe eines Sitzes für den Flug ist die Summe von K × Note.',
        'Jede Summe wird dann verschoben: Was zwischen ihr und dem eigenen Mittel des Sitzes über alle Flüge liegt, wird um das Verhältnis der Streuung des Panels zur eigenen gestreckt und zum Mittel der Mittel aller Sitze gezählt.',
        'Summen, die weit von den anderen des Fluges liegen, werden weggelassen. Die Wertung des Panels ist das Mittel der übrigen.',
      ],
      level: (mean, spread) => `Mittel der Mittel aller Sitze: ${mean}. Streuung des Panels: ${spread}.`,
      line: (mean, total, own, spread, ownSpread, moved) =>
        `${mean} + (${total} − ${own}) × ${spread} / ${ownSpread} = ${moved}`,
      plain: (mean, total, own, moved) => `${mean} + (${total} − ${own}) = ${moved}`,
      score: (sum, n, value) => `(${sum}) / ${n} = ${value}`,
    },
    options: (text) => `Für dieses Programm eingestellt: ${text}.`,
    option: {
      trim: (n) => `an jedem Ende ${plural(n, 'Note', 'Noten')} weggelassen`,
      discard: (n) => `Summen jenseits von ${n} Standardabweichungen weggelassen`,
      outlier: (n) => `kein Vertrauen jenseits von ${n} Standardabweichungen`,
      lean: (n) => `weniger Vertrauen für einen Sitz, der über ${n} Standardabweichungen neigt`,
    },
  },

  methods: {
    heading: 'Wie eine Wertung zustande kommt',
    lead: 'Die Wettbewerbsleitung wählt für jedes Programm eine Methode; vom ersten Aufruf an steht sie fest. Eine Methode, die mehr Sitze oder Flüge braucht, als da sind, weicht dem Mittelwert, und das Ergebnis sagt es.',
    needs: {
      mean: 'Braucht einen Sitz und einen Flug.',
      'trimmed-mean': 'Braucht fünf Sitze.',
      normalised:
        'Braucht vier Sitze und fünf vollständige Flüge. Mit vier Sitzen kann bei 1.645 Standardabweichungen nichts weggelassen werden.',
      consensus: 'Braucht vier Sitze und fünf vollständige Flüge.',
    },
    own: 'Zu jeder Wertung gibt es eine Seite, die sie in ihren eigenen Zahlen ausrechnet: vom Wertungsbogen aus, „Wie diese Wertung zustande kam“.',
    accuracy: 'Wie genau die Methoden sind',
    accuracyLead:
      'Wettbewerbe werden simuliert, deren wahre Reihenfolge bekannt ist; Panels mit bekannten Fehlern benoten sie; die Rangliste jeder Methode wird an der Wahrheit gemessen. Die Grenze ist, was zu haben wäre, wenn alles über die Punktrichter bekannt wäre.',
    names: { scenario: 'Panel', ...names, limit: 'Grenze' },
  },
};

export default words;
