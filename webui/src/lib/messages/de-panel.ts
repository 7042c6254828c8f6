/** The words of how good a panel is, in German. */
import type { panelWords } from './en-panel';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;
const more = (value: number) => (value < 0 ? 'niedriger' : 'höher');

const methods: Record<string, string> = {
  consensus: 'Konsens',
  mean: 'Mittelwert',
  'trimmed-mean': 'gestutzter Mittelwert',
  normalised: 'normierte Summen',
};

const words: typeof panelWords = {
  chart: {
    table: 'Als Tabelle',
    failed: 'Das Bild konnte nicht geladen werden. Die Tabelle hat dieselben Zahlen.',
  },

  analyses: {
    what: 'welche Analysen hier zu sehen sind',
    heading: 'Analyse der Punktrichter',
    lead: 'Wie jeder Punktrichter neben den anderen gewertet hat und wie einig ein Panel mit sich ist. Gerechnet wird nur mit abgeschlossenen Flügen.',
    private:
      'Die Zahlen eines Punktrichters gehören ihm. Wettbewerbsleitung, Büro und Jury sehen sie; alle anderen erst, wenn die Wettbewerbsleitung sie veröffentlicht.',
    none: 'Hier ist keine Analyse für Sie zu sehen',
    noneDo:
      'Ein Punktrichter meldet sich mit dem Konto aus seiner Einladung an oder öffnet diese Seite auf dem Gerät seines Sitzes. Die eigene Analyse ist da, sobald Ergebnisse des Programms veröffentlicht sind.',
    panel: 'Das Panel',
    own: 'Ihre eigene Analyse',
    waits: 'Ihre eigene Analyse kommt, wenn Ergebnisse veröffentlicht sind',
    published: (when: string) => `veröffentlicht am ${when}`,
  },

  panel: {
    what: 'wie gut das Panel ist',
    heading: (what: string) => `Das Panel · ${what}`,
    from: (n: number, method: string) =>
      `${plural(n, 'abgeschlossener Flug', 'abgeschlossene Flüge')}, Methode: ${methods[method] ?? method}`,
    none: 'Noch ist kein Flug abgeschlossen',
    noneDo: 'Die Zahlen kommen mit den Flügen, die der Oberpunktrichter abschließt.',
    agreement: 'Wie einig das Panel mit sich ist',
    value: 'Wert',
    winner: (names: string) => `Rang 1: ${names}`,
    noWinner: 'Noch ist niemand auf Rang 1.',
    flight: (n: number) => `Flug ${n}`,
    agreements: {
      icc_single: 'Ein Punktrichter, ICC(2,1)',
      icc_panel: 'Das Panel, ICC(2,k)',
      kendall_w: 'Die Reihenfolgen, Kendalls W',
      cronbach_alpha: 'Cronbachs α',
    },
    agreementMeans: {
      icc_single: (v: string) =>
        `Von allem, worin sich die Summen eines Punktrichters unterscheiden, kommt ${v} von 1 aus den Flügen und der Rest vom Punktrichter. So viel wäre ein einzelner Punktrichter für sich wert.`,
      icc_panel: (v: string) =>
        `Dasselbe für den Mittelwert des ganzen Panels: ${v} von 1. Nahe 1 käme ein anderes, gleich gutes Panel kaum zu einem anderen Ergebnis.`,
      kendall_w: (v: string) =>
        `Wie ähnlich die Reihenfolgen sind, in denen die Punktrichter die Piloten sehen: ${v}; 1 heißt bei allen dieselbe, 0 keinerlei Übereinstimmung.`,
      cronbach_alpha: (v: string) =>
        `Wie gut die Summen der Punktrichter zusammengehen, gleich auf welcher Höhe: ${v}; 1 heißt im Gleichschritt. Der Wert wächst mit der Zahl der Sitze.`,
    },
    over: (flights: number, seats: number) =>
      `Aus ${plural(flights, 'Flug', 'Flügen')}, von allen Sitzen (${seats}) gewertet.`,
    unknown: 'Nicht zu berechnen: zu wenige Flüge oder Sitze, oder nichts unterscheidet sich.',

    without: 'Was an einem Sitz hängt',
    withoutLead: 'Das Programm wird noch einmal gewertet, reihum ohne je einen Sitz.',
    withoutTitle: 'Größte Änderung eines Rangs ohne je einen Sitz',
    withoutReads:
      'Ein Balken je Sitz: um wie viele Ränge sich jemand am meisten verschiebt. Ein Wort dahinter, wo ein anderer Pilot auf Rang 1 wäre.',
    withoutHead: ['Ohne', 'Ränge verschoben', 'Wer', 'Rang 1'],
    seat: (n: number) => `Sitz ${n}`,
    ranks: 'Ränge',
    otherFirst: 'anderer auf Rang 1',
    nobody: 'niemand',
    steady: 'Gleich, wer wegbleibt: Kein Rang ändert sich.',
    moves: (n: number) =>
      `Ohne einen Sitz verschiebt sich ein Pilot um höchstens ${plural(n, 'Rang', 'Ränge')}.`,
    sameFirst: 'Rang 1 bleibt derselbe, gleich welcher Sitz fehlt.',
    changedFirst: (seats: string) => `Ein anderer Pilot wäre auf Rang 1 ohne ${seats}.`,

    judges: 'Jeder Punktrichter gegen das Panel',
    judgesLead:
      'Je weiter ein Punkt von der Linie liegt, desto mehr gibt es anzusehen. Keine dieser Zahlen beweist für sich allein etwas.',
    dots: {
      difference: [
        'Höhe',
        'Punkte je Note über oder unter den anderen bei denselben Figuren. Die Linie ist kein Unterschied.',
        'Punkte',
      ],
      deviation: [
        'Streuung',
        'Wie weit die eigenen Noten des Punktrichters streuen. Die Linie ist die Mitte des Panels.',
        'Punkte',
      ],
      order_disagreement: [
        'Reihenfolge',
        'Abweichung von der Reihenfolge der Piloten beim Panel. Die Linie ist keine Abweichung.',
        'Prozent',
      ],
      accuracy: [
        'Genauigkeit',
        'Abstand von den Werten des Panels. Die Linie ist so genau wie das Panel.',
        'mal',
      ],
    },
    dotsHead: 'Sitz',
    one: 'Ein Punktrichter',
    pick: 'Welcher Punktrichter',

    publish: 'Analyse veröffentlichen',
    publishMeans: [
      'Alle, die den Wettbewerb sehen, sehen dann die Zahlen jedes Punktrichters mit Namen: Höhe, Streuung, nicht bestätigte Nullen, Anteil und Unterschied bei Piloten des eigenen Vereins oder Landes.',
      'Das lässt sich nicht zurücknehmen: Was gelesen ist, ist gelesen. Wird ein Flug später berichtigt, ändern sich die Zahlen mit.',
      'Ihr Passwort wird verlangt.',
    ],
    publishFirst: 'Sie lässt sich veröffentlichen, wenn Ergebnisse des Programms veröffentlicht sind.',
    sure: 'Die Punktrichter wissen es, und ich veröffentliche sie endgültig',
    does: 'Endgültig veröffentlichen',
    doing: 'Wird veröffentlicht …',
    since: (when: string) => `Alle, die den Wettbewerb sehen, sehen dies seit ${when}.`,
    chiefSees:
      'Diese Seite zeigt von keinem Punktrichter eigene Zahlen und Piloten nur mit den Nummern ihrer Flüge.',
  },

  judge: {
    what: 'ein Punktrichter gegen das Panel',
    heading: (name: string) => `${name} gegen das Panel`,
    private: 'Nur Sie, die Wettbewerbsleitung, das Büro und die Jury sehen dies.',
    openToAll: 'Die Wettbewerbsleitung hat es veröffentlicht: Alle, die den Wettbewerb sehen, sehen es.',
    number: 'Zahl',
    own: 'Punktrichter',
    middle: 'Mitte des Panels',
    means: 'Was sie bedeutet',
    given: 'Wie oft jede Note gegeben wurde',
    givenReads:
      'Balken: dieser Punktrichter. Linie: alle Sitze zusammen. In Prozent der Noten, die Zahlen sind.',
    givenHead: ['Note', 'Punktrichter', 'Panel'],
    grade: 'Note',
    share: 'Prozent',
    levels: 'Abstand vom Panel, je nachdem, wie gut die Figur war',
    levelsReads:
      'Punkt: Mittelwert der Noten des Punktrichters weniger dem Wert des Panels; die Linie reicht so weit, wie zwei Drittel davon streuen. Band: die Streuung des Panels selbst auf dieser Höhe. Ein Punkt über der Linie ist dort milde.',
    levelsHead: ['Wert des Panels', 'Noten', 'Mittelwert', 'Abstand', 'Streuung des Panels'],
    levelsAxis: 'Wert des Panels',
    off: 'Punkte Abstand',
    codes: (given: number, upheld: number) => `${given} gegeben, ${upheld} bestätigt`,
    names: {
      difference: 'Höhe',
      deviation: 'Streuung',
      pearson: 'Übereinstimmung (Pearson)',
      spearman: 'Dasselbe nach Rängen (Spearman)',
      kendall: 'Dasselbe nach Paaren (Kendalls τ-b)',
      order_disagreement: 'Andere Reihenfolge',
      accuracy: 'Genauigkeit',
      distrusted: 'Wenig vertraut',
      weight: 'Anteil',
      hard_zeros: 'Harte Nullen',
      perception_zeros: 'Wahrnehmungsnullen',
      not_seen: 'Nicht gesehen',
      own: 'Eigener Verein, eigenes Land',
    },
    says: {
      none: 'Aus diesen Flügen nicht zu berechnen.',
      difference: (v: number, shown: string) =>
        `Für dieselbe Figur sind die Noten im Mittel ${shown} Punkte ${more(v)} als die der anderen. Das trifft alle Piloten gleich und ändert für sich allein keinen Rang.`,
      deviation: (shown: string) =>
        `Die Noten streuen um ${shown} Punkte. Bei einem einfachen Mittelwert entscheidet mehr, wer mehr streut; der Konsens gleicht das aus.`,
      pearson: 'Wie die Summen mit denen der anderen steigen und fallen: 1 im Gleichschritt, 0 zufällig.',
      spearman: 'Dasselbe allein nach der Reihenfolge der Summen.',
      kendall:
        'Paare von Piloten in der Reihenfolge der anderen weniger Paare in umgekehrter, als Anteil an allen.',
      order: (shown: string) =>
        `Von den Punkten zwischen allen Paaren von Piloten liegen ${shown} zwischen Paaren, die dieser Punktrichter umgekehrt sieht. 0 ist die Reihenfolge des Panels.`,
      accuracy: (shown: string) =>
        `Die Noten liegen ${shown}-mal so weit vom Wert des Panels wie die des Panels auf dieser Höhe. 1 ist so genau wie das Panel.`,
      distrusted: 'Anteil der Noten, denen der Konsens weniger als zur Hälfte vertraut.',
      weight: (seats: number, even: string) =>
        `Anteil am Ergebnis des Panels. Bei gleichem Gewicht hätte ${seats === 1 ? 'der eine Sitz' : `jeder der ${seats} Sitze`} ${even}.`,
      hard_zeros: 'Bestätigt: Die Null zählte, durch die anderen Sitze oder durch den Oberpunktrichter.',
      perception_zeros: 'Bestätigt: Die Null zählte für diesen Sitz.',
      not_seen: 'Bestätigt: Der Wert des Panels trat an ihre Stelle.',
      own: (pilots: number, p: string) =>
        `Punkte je Note für ${plural(pilots, 'Piloten', 'Piloten')} des eigenen Vereins oder Landes mehr als für die anderen. Der Zufall allein macht in ${p} von 100 Fällen einen so großen Unterschied. Eine kleine Zahl ist ein Grund hinzusehen, kein Beweis.`,
      noOwn:
        'Zu wenige Noten zum Vergleichen, für weniger als zwei Piloten: Kein Pilot des eigenen Vereins oder Landes wurde gewertet oder keiner eines anderen.',
    },
  },
};

export default words;
