/** The words of the pages to print, in German. */
import type { cardsWords } from './en-cards';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const words: typeof cardsWords = {
  cards: {
    what: 'Karten',
    of: (what: string, of: string, which: string[]) => [what, of, ...which].join(' · '),
    choose: 'Was gedruckt wird',
    print: 'Drucken',
    count: (pages: number, paper: string) => `${plural(pages, 'Seite', 'Seiten')}, ${paper}`,
    preview: 'Die Seiten, wie sie gedruckt werden',

    kind: 'Karte',
    kinds: {
      sequence: 'Figurenkarte',
      caller: 'Ansagekarte',
      grades: 'Wertungsbogen',
      order: 'Startreihenfolge',
    },
    wind: 'Wind',
    winds: { right: 'Von rechts', left: 'Von links', both: 'Beides, nacheinander' },
    flights: 'Flüge',
    one: 'Eine Karte für alle Flüge',
    every: 'Jeder Flug',
    toFly: 'Noch zu fliegende Flüge',
    flightOf: (n: number, pilot: string) => `Flug ${n}, ${pilot}`,
    seats: 'Sitze',
    everySeat: 'Jeder Sitz',
    seatOf: (n: number, judge: string) => `Sitz ${n}, ${judge}`,
    stack: 'Sortiert',
    stacks: { flight: 'Flug für Flug', seat: 'Ein Stapel je Sitz' },
    names: 'Piloten',
    namesOf: { shown: 'Mit Namen', 'left-out': 'Nur Nummern, für Punktrichter' },
    paper: 'Papier',
    papers: { a4: 'A4', letter: 'Letter' },

    emptyHeading: 'Noch keine Figurenfolge zum Drucken',
    emptyDo:
      'Karten erscheinen hier, sobald das Büro die Figurenfolge eingegeben hat; eine unbekannte ist nur für das Büro, bis sie freigegeben ist.',
    noFlights: 'Kein Flug zum Drucken',
    noFlightsDo: 'Bitte andere Flüge wählen oder zuerst die Startreihenfolge machen.',
    noPanel: 'Noch kein Panel',
    noPanelDo:
      'Wertungsbögen werden für jeden Sitz gedruckt: bitte zuerst das Panel dieses Programms einrichten.',
    without: (numbers: number[]) =>
      `Für ${numbers.length === 1 ? 'Flug' : 'die Flüge'} ${numbers.join(', ')} gibt es keine Figurenfolge: Dafür wird nichts gedruckt.`,

    flightWord: 'Flug',
    flightsWord: 'Flüge',
    allWord: 'alle',
    seatWord: 'Sitz',
    flight: (n: number) => `Flug ${n}`,
    allFlights: 'alle Flüge',
    seat: (n: number) => `Sitz ${n}`,
    judge: (name: string) => `Punktrichter: ${name}`,
    page: (n: number, of: number) => `Seite ${n} von ${of}`,
    code: (whose: string) => `QR-Code mit der Adresse: ${whose}`,
    version: (digest: string) => `Figurenfolge ${digest}`,
    read: (at: string) => `Stand ${at}`,
    notSignedOff: 'Nicht abgenommen',
    notClean: 'Die Prüfung hat Fehler gefunden',
    withheld: 'Nicht freigegeben: nur für das Büro',

    figures: (n: number, k: string) => `${plural(n, 'Figur', 'Figuren')}, K gesamt ${k}`,
    windFrom: { right: 'Wind von rechts', left: 'Wind von links' },
    flown: { right: 'Von links nach rechts geflogen', left: 'Von rechts nach links geflogen' },
    drawnFor: { right: 'Gezeichnet für Wind von rechts', left: 'Gezeichnet für Wind von links' },
    across: 'beginnt quer zur Box',
    overall: 'Gesamtnoten',
    call: 'Ansage',

    grade: 'Note 0 bis 10, in halben Punkten',
    hardZero: 'Harte Null',
    perceptionZero: 'Wahrneh\u00admungs\u00adnull',
    notSeen: 'Nicht gesehen',
    position: 'Position',
    letters:
      'Position: einkreisen, wohin eine Figur von der Mitte der Box abwich (fern, links, rechts, nah); zweimal, wenn viel zu weit. Positionierung: zehn minus einen halben Punkt je Kreis.',
    places: { far: 'F', left: 'L', right: 'R', near: 'N' },
    remarks: 'Bemerkungen',
    signature: 'Unterschrift des Punktrichters',
    time: 'Zeit',
    keyed: 'Eingetippt von',
    keyedAgain: 'Noch einmal eingetippt von',
    goesOn: (page: number) => `Weiter auf Seite ${page}`,

    inOrder: (flights: number) => `${plural(flights, 'Flug', 'Flüge')} in Startreihenfolge`,
    place: 'Start',
    from: 'Verein/Land',
    aircraft: 'Flugzeug',
    notes: 'Notizen',
  },
};

export default words;
