/** The words of the chief judge's page and of the assistant's, in German. */
import type { chiefWords } from './en-chief';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const list = (parts: string[]) => new Intl.ListFormat('de').format(parts);

const among = (of: number) => `unter ${plural(of, 'Note', 'Noten')}`;

const statuses: Record<string, string> = {
  '': 'nicht aufgerufen',
  called: 'aufgerufen',
  flying: 'in der Luft',
  landed: 'gelandet',
  interrupted: 'unterbrochen',
  closed: 'abgeschlossen',
  'not-flown': 'nicht geflogen',
  withdrawn: 'zurückgezogen',
  disqualified: 'disqualifiziert',
};

const sheetStates: Record<string, string> = {
  differ: 'zwei Unterschriften stimmen nicht überein',
  waits: 'die Unterschrift wartet auf Noten',
  reopened: 'wieder geöffnet',
};

const rulings: Record<string, string> = {
  'hard-zero-confirmed': 'harte Null für alle',
  'hard-zero-overruled': 'keine harte Null',
  'perception-zero-confirmed': 'Wahrnehmungsnull gilt',
  'perception-zero-overruled': 'keine Wahrnehmungsnull',
};

const words: typeof chiefWords = {
  chief: {
    none: 'Es ist kein Flug mehr übrig.',
    noneDo:
      'Jeder Flug ist vorbei, oder das Büro hat noch keinen eingerichtet. Was vorbei ist, steht unter Anderer Flug.',
    unheard:
      'Was zu diesem Flug festgehalten wurde, ist nicht auf diesem Tablet. Wieder geöffnet wird er auf dem Tablet des Oberpunktrichters, auf dem er zu Ende ging.',
    noSequence: 'Die Figurenfolge dieses Flugs ist nicht hier: Erst muss das Büro sie freigeben.',
    table: (n: number) => `Noten von Flug ${n}`,
    figure: 'Figur',
    ruling: 'Entscheidung',
    flights: 'Flüge an der Linie',
    tab: (n: number, status: string) => `${n} ${statuses[status] ?? status}`,
    others: 'Anderer Flug',
    othersHeading: 'Welcher Flug?',
    status: (status: string) => statuses[status] ?? status,
    attempt: (n: number) => `Versuch ${n}`,
    back: 'Zurück zum Flug',

    mark: {
      missing: 'fehlt',
      conflict: 'zwei Noten',
      far: 'weit von den anderen',
      zero: 'eine Null',
      '': '',
    },
    seat: {
      name: (n: number) => `Sitz ${n}`,
      at: (n: number) => `bei ${n}`,
      full: 'Unterschrift fehlt',
      signed: 'unterschrieben',
      differ: 'Unterschriften ungleich',
      waits: 'Unterschrift wartet',
      reopened: 'wieder geöffnet',
      absent: 'nicht besetzt',
      tablet: {
        none: 'kein Tablet',
        silent: 'still',
        here: '',
      },
      unsent: (n: number) => `${n} nicht gesendet`,
      twins: (n: number) => plural(n, 'Tablet', 'Tablets'),
      entered: (n: number, of: number) =>
        `${n} von ${plural(of, 'Figur', 'Figuren')} ${n === 1 ? 'hat' : 'haben'} eine Note.`,
      tabletSays: {
        none: 'Für diesen Sitz ist kein Tablet gekoppelt: Das macht das Büro.',
        silent: 'Sein Tablet hat sich eine Weile nicht gemeldet. Was dort eingegeben wurde, bleibt dort.',
        here: 'Sein Tablet arbeitet.',
      },
      makeAbsent: 'Bei diesem Flug nicht besetzt',
      makePresent: 'Wieder besetzt',
      reopen: 'Bogen wieder öffnen',
      signFor: 'Für den Punktrichter unterschreiben',
      move: 'Bogen eines anderen Flugs',
      moveTo: (flight: number) => `Er gehört zu Flug ${flight}`,
      why: {
        reopen: 'Warum wird er wieder geöffnet?',
        signFor: 'Warum unterschreiben Sie für den Punktrichter?',
        move: (flight: number) => `Warum geht der Bogen an Flug ${flight}?`,
      },
      conflict: (item: number) => `Figur ${item}: zwei Noten. Welche gilt?`,
      settleWhy: (grade: string) => `${grade}, weil …`,
      tookBack: 'keine',
    },
    reasons: {
      reopen: [
        'eine Note wurde vergessen',
        'Punktrichter bittet darum',
        'falsche Figur gewertet',
        'Beschluss des Panels',
      ],
      signFor: ['Punktrichter hat ihn bestätigt', 'Tablet ist defekt', 'Punktrichter musste gehen'],
      settle: [
        'Punktrichter hat es so gesagt',
        'Punktrichter hat sich berichtigt',
        'wie auf dem Papierbogen',
      ],
      interrupted: ['Wetter', 'Verkehr', 'Technik', 'Pilot bat darum', 'Sicherheit'],
      'not-flown': ['nicht gestartet', 'Technik', 'Wetter', 'Programm wurde beendet'],
      withdrawn: ['eigener Wunsch des Piloten', 'Technik', 'Gesundheit'],
      disqualified: ['Sicherheit', 'unter der Mindesthöhe', 'Regeln des Wettbewerbs'],
      landed: ['versehentlich abgeschlossen', 'Beschluss der Jury', 'Eintrag kam verspätet'],
      adopt: ['rechtzeitig eingegeben', 'Tablet zu früh entkoppelt', 'mit dem Punktrichter geklärt'],
      move: ['für den falschen Flug eingegeben', 'mit dem Punktrichter geklärt'],
      aside: ['versehentlich eingegeben', 'falscher Flug', 'mit dem Punktrichter geklärt'],
    },
    why: (what: string) => `Warum: ${what}?`,
    own: 'In eigenen Worten',
    confirm: 'Festhalten',
    cancel: 'Abbrechen',

    question: {
      'hard-zero': (n: number, of: number) => `${plural(n, 'harte Null', 'harte Nullen')} ${among(of)}`,
      'perception-zero': (n: number, of: number) =>
        `${plural(n, 'Wahrnehmungsnull', 'Wahrnehmungsnullen')} ${among(of)}`,
      zero: (n: number, of: number) => `${n} × 0.0 ${among(of)}`,
      grade: () => 'Kein Sitz hat eine Note, die zählt: bitte eine festsetzen',
      ruling: () => 'Zwei Entscheidungen widersprechen sich: bitte neu entscheiden',
    },
    saysRuling: (ruling: string, grade: string) =>
      ruling === 'grade-set'
        ? `Note festgesetzt: ${grade}`
        : (rulings[ruling] ?? 'Entscheidungen widersprechen sich'),
    rule: {
      heading: (name: string) => `Entscheidung zu ${name}`,
      'hard-zero-confirmed': 'Harte Null für alle',
      'hard-zero-overruled': 'Keine harte Null',
      'perception-zero-confirmed': 'Wahrnehmungsnull gilt',
      'perception-zero-overruled': 'Keine Wahrnehmungsnull',
      withdraw: (what: string) => `Zurücknehmen: ${what}`,
      setGrade: 'Eine Note für die Figur festsetzen',
      setGradeNote: 'Sie zählt nur, wo keine Note eines Sitzes zählt.',
      other: 'Über eine Figur entscheiden',
      pick: 'Welche Figur?',
    },

    call: (n: number) => `Flug ${n} aufrufen`,
    then: (numbers: number[]) => `dann ${numbers.join(', ')}`,
    flying: 'In der Luft',
    landed: 'Gelandet',
    close: (n: number) => `Flug ${n} abschließen`,
    closeAnyway: 'Trotzdem abschließen',
    interrupt: 'Unterbrochen',
    resume: 'Geht weiter',
    again: (attempt: number) => `Neu fliegen: Versuch ${attempt}`,
    notFlown: 'Nicht geflogen',
    withdraw: 'Zurückgezogen',
    disqualify: 'Disqualifiziert',
    reopen: (n: number) => `Flug ${n} wieder öffnen`,
    callBack: 'Wieder aufrufen',
    counts: (attempt: number) => `Versuch ${attempt} zählt`,
    attempts: 'Welcher Versuch zählt?',
    undecided: 'Über den Stand dieses Flugs gibt es widersprüchliche Angaben: bitte neu angeben.',
    statusHeading: 'Der Flug',
    ends: 'Er endet ohne Wertung',
    wind: 'Wind',
    windTo: { left: '← Wind nach links', right: 'Wind nach rechts →' },
    clock: 'Flugzeit',
    limit: (text: string) => `von ${text}`,
    over0: (text: string) => `${text} über der Zeit`,
    left: (text: string) => `noch ${text}`,
    shorter: 'Zeitlimit eine halbe Minute kürzer',
    longer: 'Zeitlimit eine halbe Minute länger',
    less: '− 30 s',
    more: '+ 30 s',

    penalties: 'Strafpunkte',
    penaltiesNone: 'Das Büro hat keine Strafpunkte eingerichtet.',
    pointsEach: (points: string) => `je ${points} Punkte`,
    given: (kind: string, count: number) => (count > 1 ? `${kind}: ${count} Mal` : kind),
    disqualifies: 'Disqualifikation',
    give: 'Geben',
    takeBack: 'Zurücknehmen',
    fewer: (kind: string) => `Einmal weniger: ${kind}`,
    oneMore: (kind: string) => `Einmal mehr: ${kind}`,
    penaltyConflict: 'widersprüchliche Angaben: bitte neu geben',

    needs: 'Für Sie zu tun',
    nothing: 'Dem Abschluss steht nichts im Weg.',
    block: {
      unsigned: (numbers: number[]) => `Nicht unterschrieben: Sitz ${list(numbers.map(String))}`,
      sheet: (seat: string, state: string) => `${seat}: ${sheetStates[state] ?? state}`,
      conflict: (seat: string, item: number) => `${seat}, Figur ${item}: zwei Noten`,
      absent: (seat: string) => `${seat}: besetzt oder nicht?`,
      ruling: (item: number) => `Figur ${item}: Entscheidungen widersprechen sich`,
      penalty: (kind: string) => `${kind}: widersprüchliche Angaben`,
      record: (seat: string, item: number, state: string) =>
        `${seat}${item > 0 ? `, Figur ${item}` : ''}: ${state} und zählt nicht`,
      status: () => 'widersprüchliche Angaben über den Stand des Flugs',
    },
    aside: 'Nicht zählen',
    adopt: 'Doch zählen',
    recordState: {
      late: 'kam nach der Unterschrift',
      closed: 'kam nach dem Abschluss',
      'other-sequence': 'gehört zu einer anderen Figurenfolge',
      held: 'ist zurückgehalten',
      waits: 'wartet auf Noten',
    },
  },
  assistant: {
    now: 'jetzt',
    next: 'danach',
    last: 'Das war die letzte Figur.',
    none: 'Es ist kein Flug aufgerufen.',
    which: 'Welcher Flug?',
    noFigures: 'Es gibt nichts anzusagen: Dieser Flug hat keine Figuren.',
    marked: (marks: string[]) => `Er wird als Ganzes bewertet: ${list(marks)}.`,
    missing:
      'Die Figuren dieses Fluges sind noch nicht auf diesem Tablet. Auf das Netz warten oder vom Papier lesen.',
    noneDo:
      'Die Ansagen erscheinen hier, wenn der Oberpunktrichter einen Flug aufruft; oder den Flug nach seiner Nummer wählen.',
    forward: 'Nächste Figur',
    back: 'Eine zurück',
    follows: 'Die Ansagen folgen dem Bogen des Punktrichters.',
    alone: 'Dieses Tablet gehört zu keinem Sitz: weiter durch Antippen.',
    follow: 'Zur Figur des Punktrichters',
    end: 'Ende der Figurenfolge',
    other: 'Anderer Flug',
  },
};

export default words;
