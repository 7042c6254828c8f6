/** The words of making a contest and of its set-up, in German. */
import type { setupWords } from './en-setup';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const kinds: typeof setupWords.setup.programmes.kinds = {
  known: ['Bekannte Pflicht', 'Alle fliegen dieselbe Figurenfolge, die lange vorher bekannt ist.'],
  free: ['Kür', 'Jeder Pilot fliegt die eigene Figurenfolge.'],
  unknown: ['Unbekannte Pflicht', 'Alle fliegen dieselbe, die erst mit der Freigabe gezeigt wird.'],
  freestyle: ['Freestyle', 'Jeder Pilot fliegt das eigene Programm, das als Ganzes gewertet wird.'],
};

const methods = {
  consensus: {
    name: 'Konsens',
    why: 'Fragt bei jeder Note, wie weit ihr zu vertrauen ist: Höhe und Streuung eines Punktrichters werden ausgeglichen, genaue Sitze zählen mehr, Ausrutscher und Neigung weniger. Braucht vier Sitze und fünf vollständige Flüge.',
  },
  mean: {
    name: 'Mittelwert',
    why: 'Jede Zeile zählt mit ihrem K mal dem Mittelwert ihrer Noten. Nichts wird weggelassen, und es geht mit jedem Panel.',
  },
  'trimmed-mean': {
    name: 'Gestutzter Mittelwert',
    why: 'Wie der Mittelwert, aber ohne die niedrigsten und die höchsten Noten jeder Zeile, wo mindestens drei übrig bleiben. Braucht fünf Sitze; wenn an jedem Ende zwei wegfallen, sieben.',
  },
  normalised: {
    name: 'Normierte Summen',
    why: 'Bringt die Summen jedes Sitzes auf Mittelwert und Streuung des Panels und lässt Summen weit von den anderen weg. Braucht vier Sitze und fünf vollständige Flüge; weggelassen wird erst ab fünf Sitzen.',
  },
};

const options: typeof setupWords.setup.programmes.options = {
  trim: [
    'An jedem Ende weggelassene Noten',
    'So viele der niedrigsten und der höchsten Noten jeder Zeile zählen nicht, wo mindestens drei übrig bleiben.',
  ],
  discard: [
    'Weglassen ab',
    'Die Summe eines Flugs wird weggelassen, wo sie um mehr als so viele Standardabweichungen vom Mittelwert des Flugs abweicht. 1.645 ist üblich; höher lässt weniger weg.',
  ],
  style: [
    'Erst die Streuungen der Sitze angleichen',
    'Wer wenig von der Skala nutzt, wird gedehnt, wer viel nutzt, wird gestaucht, bevor Noten verglichen werden.',
  ],
  seat_weights: [
    'Wie Sitze zählen',
    'Ob ein Sitz, der besser mit dem übereinstimmt, was das Panel sah, mehr zählt.',
  ],
  outlier: [
    'Kein Vertrauen ab',
    'Eine Note, die um so viele Standardabweichungen des Sitzes von dem abweicht, was das Panel sah, hat gar kein Vertrauen; nähere verlieren es allmählich. 6 ist üblich.',
  ],
  lean: [
    'Neigung ab',
    'Einem Sitz, dessen Noten für einen Piloten auf einer Seite liegen, weiter als so viele Standardabweichungen dessen, was bei Sitzen üblich ist, wird bei diesem Piloten weniger vertraut. 2 ist üblich.',
  ],
  group_min: [
    'Kleinste Zahl Figuren einer Gruppe',
    'In einer Kür werden Figuren einer Klasse in Gruppen von mindestens so vielen miteinander verglichen. 11 ist üblich; eine Pflicht verwendet es nicht.',
  ],
};

const words: typeof setupWords = {
  setup: {
    what: 'Einrichtung',
    title: 'Einrichten',
    pages: {
      contest: 'Wettbewerb',
      categories: 'Kategorien',
      programmes: 'Programme',
      pilots: 'Piloten',
      judges: 'Punktrichter',
      panels: 'Panels',
      penalties: 'Strafpunkte',
    },
    nav: 'Seiten der Einrichtung',
    notSaved: (n: number) => `${n} nicht gespeichert`,

    save: 'Speichern',
    saving: 'Wird gespeichert …',
    discard: 'Verwerfen',
    state: {
      none: 'Alles ist gespeichert.',
      unsaved: (n: number) => `${plural(n, 'Zeile', 'Zeilen')} nicht gespeichert.`,
      saved: 'Gespeichert.',
      wrong: (n: number) =>
        `Noch ist nichts gespeichert: ${plural(n, 'Angabe stimmt', 'Angaben stimmen')} nicht.`,
      choose: (n: number) =>
        `Nichts wird überschrieben: Jemand anders hat ${n === 1 ? 'eine Zeile' : `${n} Zeilen`} geändert, die Sie auch geändert haben. Bitte in der Zeile wählen, dann speichern.`,
      merged:
        'Jemand anders hat hier inzwischen etwas geändert; es ist übernommen. Bitte ansehen, dann noch einmal speichern.',
      away: 'Der Server ist nicht erreichbar, also ist nichts gespeichert. Was Sie eingegeben haben, bleibt auf diesem Gerät: bitte noch einmal speichern, wenn das Netz wieder da ist.',
      awayNot:
        'Der Server ist nicht erreichbar, also ist nichts gespeichert. Bitte diese Seite offen lassen und noch einmal speichern, wenn das Netz wieder da ist.',
      refused: (detail: string) => `Der Server hat es nicht gespeichert: ${detail}`,
    },
    toFirst: 'Zur ersten',
    found: 'Was auf diesem Gerät früher eingegeben und nicht gespeichert wurde, steht wieder in den Feldern.',
    notKept: 'Dieser Browser behält nichts: Was hier eingegeben wird, geht mit der Seite verloren.',
    number: 'Das ist keine Zahl.',

    theirs: (text: string) => `Jemand anders hat inzwischen geändert auf: ${text}.`,
    mine: (text: string) => `Ihre Angabe: ${text}.`,
    takeTheirs: (text: string) => `Übernehmen: ${text}`,
    keepMine: 'Ihre behalten',
    nothing: 'leer',
    quoted: (text: string) => `„${text}“`,
    gone: 'Jemand anders hat diese Zeile inzwischen herausgenommen.',
    putBack: 'Wieder hinein',
    letGo: 'Weglassen',
    removed: (name: string) => `Beim Speichern herausgenommen: ${name}.`,
    keep: 'Behalten',
    remove: 'Herausnehmen',
    up: 'Nach oben',
    down: 'Nach unten',
    of: (what: string, name: string) => `${what}: ${name || 'noch ohne Namen'}`,
    unnamed: 'Noch ohne Namen',
    yes: 'ja',
    no: 'nein',
    filter: 'Nur zeigen',
    filterWhy: 'Teil von Name, Kürzel oder Verein',
    shows: (n: number, all: number) => (n === all ? `insgesamt ${all}` : `${n} von ${all}`),

    make: {
      title: 'Neuer Wettbewerb',
      lead: 'Er beginnt geschlossen: Nur seine Verantwortlichen sehen ihn. Alles lässt sich später ändern.',
      does: 'Wettbewerb anlegen',
      doing: 'Wird angelegt …',
      name: 'Name',
      place: 'Ort',
      starts: 'Erster Tag',
      ends: 'Letzter Tag',
      from: 'Einrichten wie',
      empty: 'noch nichts: ein leerer Wettbewerb',
      fromWhy:
        'Strafpunkte, Kategorien mit ihren Grenzen, Programme mit ihren Methoden und die Tabelle der Katalognummern kommen mit. Nichts, was geflogen wurde, kommt mit.',
      pilots: 'mit seinen Piloten und ihren Meldungen',
      officials: 'mit seinen Punktrichtern und Panels',
      reading: 'Wettbewerbe',
    },

    contest: {
      opened: 'Wer ihn außer seinen Verantwortlichen sehen kann',
      openedChoice: {
        closed: ['Niemand', 'solange er eingerichtet wird'],
        published: [
          'Alle, was veröffentlicht ist',
          'und die Startreihenfolgen; Live-Ergebnisse bleiben bei den Verantwortlichen',
        ],
        live: ['Alle, live', 'Ergebnisse, sobald Noten eintreffen'],
      },
      state: 'Was eingerichtet ist',
      copy: 'Einen weiteren Wettbewerb wie diesen anlegen',
      categories: (n: number) => plural(n, 'Kategorie', 'Kategorien'),
      programmes: (n: number, without: number) =>
        `${plural(n, 'Programm', 'Programme')}${without ? `, ${without} ohne Panel` : ''}`,
      pilots: (n: number, without: number) =>
        `${plural(n, 'Pilot', 'Piloten')}${without ? `, ${without} in keiner Kategorie` : ''}`,
      judges: (n: number) => `${n} Punktrichter`,
      penalties: (n: number) => plural(n, 'Art von Strafpunkten', 'Arten von Strafpunkten'),
      sequences: 'Figurenfolgen, Grenzen und Katalognummern: die Seite des Büros',
    },

    code: 'Kürzel',
    codeWhy: 'Steht in Dateien für den Namen; jedes gibt es nur einmal.',
    name: 'Name',

    categories: {
      lead: 'Eine Kategorie wird um eine Rangliste geflogen. Hier steht, wie ihre Programme zusammenzählen, wer weiterkommt und wie Mannschaften zählen.',
      add: 'Kategorie hinzufügen',
      emptyHeading: 'Noch keine Kategorie',
      emptyDo: 'Bitte die erste hinzufügen, zum Beispiel Sportsman oder Unlimited.',
      by: 'Wie Programme zusammenzählen',
      byChoice: {
        sum: ['Punkte', 'Die veröffentlichten Wertungen werden addiert.'],
        'sum-percent': [
          'Prozente',
          'Die veröffentlichten Prozente werden addiert, sodass jedes Programm gleich viel zählt.',
        ],
        'weighted-percent': [
          'Gewichtete Prozente',
          'Prozente mal die Gewichte unten, die zusammen 1 ergeben.',
        ],
      },
      teamBest: 'Gezählte Mitglieder einer Mannschaft',
      teamBestWhy:
        'Die besten so vielen Mitglieder mit Rang ergeben die Summe einer Mannschaft; 0: keine Mannschaften.',
      programmes: 'Ihre Programme',
      noProgrammes: 'Noch kein Programm.',
      toProgrammes: 'Programme hinzufügen',
      cut: 'Danach weiter',
      cutWhy:
        '0: alle. Sonst kommen so viele nach ihrer bisherigen Gesamtwertung weiter, und alle, die mit dem letzten davon gleichauf sind.',
      weight: 'Gewicht',
      weights: (sum: string) => `Die Gewichte ergeben zusammen ${sum}; es muss 1 sein.`,
      weightsGood: 'Die Gewichte ergeben zusammen 1.',
      tie: 'Bei Gleichstand',
      tieNone: 'nein',
      tiePlace: (n: number) => `${n}.`,
      tieWhy:
        'Bei gleicher Gesamtwertung entscheiden die Wertungen dieser Programme, in dieser Reihenfolge; danach bleibt es beim Gleichstand.',
      limits: 'Grenzen für ihre Küren',
      limitsLater: 'Ihre Grenzen lassen sich festlegen, sobald sie gespeichert ist.',
    },

    programmes: {
      lead: 'Ein Programm ist ein Durchgang einer Kategorie. Seine Methode steht ab dem ersten aufgerufenen Flug fest; eine Änderung danach braucht eine Begründung, die veröffentlicht wird.',
      add: 'Programm hinzufügen',
      none: 'Noch kein Programm.',
      emptyHeading: 'Noch keine Kategorie',
      emptyDo: 'Programme gehören zu einer Kategorie: bitte zuerst eine hinzufügen.',
      toCategories: 'Zu den Kategorien',
      kind: 'Art',
      kinds,
      cut: 'Danach weiter',
      cutWhy: 'Wie viele Piloten weiterkommen; 0: alle.',
      method: 'Methode',
      methods,
      options,
      seatWeights: { measured: 'wie gemessen: genaue Sitze zählen mehr', equal: 'alle gleich' },
      more: 'Parameter und Nullen',
      hardZero: 'Eine harte Null ohne Entscheidung ist bestätigt',
      hardZeroWhy:
        'Eine harte Null sagt, dass die geflogene Figur nicht die gezeichnete ist. Ein Punktrichter allein bestätigt nie eine; die Entscheidung des Oberpunktrichters geht vor.',
      hardZeroChoice: {
        'more-than-half': 'durch mindestens zwei, mehr als die Hälfte des Panels',
        'half-or-more': 'durch mindestens zwei, die Hälfte des Panels oder mehr',
      },
      perception: 'Eine Wahrnehmungsnull',
      perceptionWhy:
        'Sie sagt, dass nicht zu sehen war, was verlangt ist (eine gerissene Rolle, ein Trudeln, ein Männchen).',
      perceptionChoice: {
        majority:
          'zählt, wo die Hälfte oder mehr eine Null irgendeiner Art gab; sonst gilt der Wert des Panels',
        'as-graded': 'zählt immer so, wie sie gegeben wurde',
      },
      usual: (text: string) => `üblich: ${text}`,
      reason: 'Warum sich die Methode ändert',
      reasonWhy:
        'Nötig, sobald ein Flug aufgerufen war, und mit den Ergebnissen veröffentlicht; sonst darf es leer bleiben.',
      counts: 'Ob ein Programm zählt, legt die Wettbewerbsleitung mit einer Begründung fest, nicht hier.',
    },

    pilots: {
      lead: 'Alle, die fliegen, und die Kategorien, in denen sie gemeldet sind.',
      add: 'Pilot hinzufügen',
      emptyHeading: 'Noch kein Pilot',
      emptyDo: 'Bitte Piloten einzeln hinzufügen oder unten alle mit einer Tabelle.',
      affiliation: 'Verein/Land',
      aircraft: 'Flugzeug',
      note: 'Eine Zeile für den Sprecher',
      entries: (name: string) => `Kategorien von ${name}`,
      enter: (category: string) => `Melden in ${category}`,
      entered: 'Gemeldet in',
      noCategories: 'Es gibt noch keine Kategorie, in der sich jemand melden ließe.',
      ranked: 'mit Rang',
      rankedWhy: 'Ohne Rang heißt außer Konkurrenz: gewertet, aber nicht in der Rangliste.',
      team: 'Mannschaft',
    },

    judges: {
      lead: 'Punktrichter und alle, die den Wettbewerb sonst durchführen. An Verein oder Land der Punktrichter sieht die Wettbewerbsleitung, wer Piloten des eigenen Vereins oder Landes wertet.',
      add: 'Punktrichter hinzufügen',
      emptyHeading: 'Noch kein Punktrichter',
      emptyDo: 'Bitte Punktrichter einzeln hinzufügen oder unten alle mit einer Tabelle.',
      duty: 'Aufgabe',
      duties: {
        judge: 'Punktrichter',
        chief: 'Oberpunktrichter',
        assistant: 'Assistent',
        announcer: 'Sprecher',
        office: 'Wettbewerbsbüro',
        director: 'Wettbewerbsleitung',
        jury: 'Jury',
      },
      affiliation: 'Verein/Land',
    },

    panels: {
      lead: 'Wer wo sitzt. Die Nummern der Sitze stehen auf Wertungsbögen, Tablets und Ergebnissen.',
      none: 'Noch kein Programm: Ein Panel gehört zu einem.',
      noneDo: 'Bitte zuerst Programme hinzufügen.',
      noJudges: 'Noch kein Punktrichter',
      noJudgesDo: 'Ein Panel besteht aus Punktrichtern: bitte zuerst welche hinzufügen.',
      toJudges: 'Zu den Punktrichtern',
      seat: (n: number) => `Sitz ${n}`,
      choose: 'Punktrichter wählen',
      add: 'Sitz hinzufügen',
      empty: 'Noch kein Sitz.',
      copy: 'Panel übernehmen von',
      take: 'Übernehmen',
      own: 'Punktrichter, die Piloten des eigenen Vereins oder Landes werten würden:',
      ownOf: (judge: string, club: string, pilots: string[]) => `${judge} (${club}): ${pilots.join(', ')}`,
      all: 'Alle Punktrichter sitzen in diesem Panel.',
    },

    penalties: {
      lead: 'Was den Verantwortlichen angeboten wird, wenn sie Strafpunkte geben. Die Punkte gelten für jedes Vorkommen und werden von der Wertung des Panels abgezogen.',
      add: 'Strafpunkte hinzufügen',
      emptyHeading: 'Noch keine Strafpunkte',
      emptyDo:
        'Bitte die Arten hinzufügen, die Ihre Regeln kennen, zum Beispiel das Unterfliegen der Mindesthöhe.',
      kind: 'Art',
      points: 'Punkte',
      repeats: 'kann in einem Flug mehrmals vorkommen',
      disqualifies: 'disqualifiziert',
    },

    table: {
      heading: 'Mit einer Tabelle',
      why: {
        pilots:
          'Eine CSV-Datei, deren erste Zeile die Spalten nennt: name und, wo vorhanden, code, affiliation, aircraft, note (eine Zeile für den Sprecher), category (Kürzel oder Name), ranked (yes oder no) und team. Ein Pilot in zwei Kategorien hat zwei Zeilen. Wer nicht darin steht, bleibt, wie er ist.',
        officials:
          'Eine CSV-Datei, deren erste Zeile die Spalten nennt: name und, wo vorhanden, code, duty (ohne Angabe: judge) und affiliation. Wer nicht darin steht, bleibt, wie er ist.',
      },
      kinds: 'Kommas, Semikolons oder Tabulatoren, UTF-8.',
      file: 'Datei wählen',
      paste: 'oder die Tabelle hier einfügen',
      read: 'Einlesen',
      reading: 'Wird eingelesen …',
      wrong: (n: number) => `Nichts wurde übernommen: ${plural(n, 'Stelle ist', 'Stellen sind')} falsch.`,
      took: (rows: number, added: number, changed: number, entries: number) =>
        `${plural(rows, 'Zeile', 'Zeilen')} eingelesen: ${plural(added, 'Person', 'Personen')} neu, ${changed} geändert${entries > 0 ? `, dazu ${plural(entries, 'Meldung', 'Meldungen')} neu oder geändert` : ''}. Bitte oben ansehen, dann speichern.`,
      same: (rows: number) => `${plural(rows, 'Zeile', 'Zeilen')} eingelesen: Alles ist schon da.`,
      away: 'Der Server ist nicht erreichbar. Die Tabelle ist noch hier: bitte noch einmal versuchen, wenn das Netz wieder da ist.',
      failed: (detail: string) => `Sie ließ sich nicht einlesen: ${detail}`,
      download: 'Als CSV herunterladen',
    },
  },
};

export default words;
