/**
 * The words that every page may show, in German. What is read or missing (`what`)
 * is without its article, and so fits every sentence whatever its gender.
 */
import type { en } from './en';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

function list(parts: (string | number)[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} und ${parts.at(-1)}`;
}

/** The service names a figure in English; a mark over all has the name the office gave it. */
const itemName = (item: string) => item.replace(/^Figure (?=\d+$)/, 'Figur ');

const seats = (numbers: number[]) => `Sitz ${list(numbers)}`;
const upper = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const verb = (numbers: number[], one: string, many: string) => (numbers.length === 1 ? one : many);
const counts = (numbers: number[]) => verb(numbers, 'zählt', 'zählen');
const were = (numbers: number[]) => verb(numbers, 'wurde', 'wurden');
const hardZeros = (numbers: number[]) =>
  `${verb(numbers, 'Die harte Null', 'Die harten Nullen')} von ${seats(numbers)}`;
const perceptionZeros = (numbers: number[]) =>
  `${verb(numbers, 'Die Wahrnehmungsnull', 'Die Wahrnehmungsnullen')} von ${seats(numbers)}`;

/** How many of how many flights have their score. */
function scored(inNow: number, all: number): string {
  if (all === 1) return inNow === 1 ? 'der eine Flug gewertet' : 'der eine Flug noch nicht gewertet';
  return `${inNow === 0 ? 'keiner' : inNow} von ${all} Flügen gewertet`;
}

const months = 'Januar Februar März April Mai Juni Juli August September Oktober November Dezember'.split(
  ' ',
);

/** The month from 0. */
type Day = [day: number, month: number, year: number];

const dayIn = ([day, month, year]: Day) => `${day}. ${months[month]} ${year}`;

/** A span of days, with what both have in common said once. */
function span(from: Day, to: Day): string {
  const [day, month, year] = from;
  if (year !== to[2]) return `${dayIn(from)} – ${dayIn(to)}`;
  if (month !== to[1]) return `${day}. ${months[month]} – ${dayIn(to)}`;
  return day === to[0] ? dayIn(to) : `${day}.–${dayIn(to)}`;
}

const words: typeof en = {
  times: {
    day: dayIn,
    days: span,
  },

  app: {
    name: 'Halfpoint',
    title: (page: string) => `${page} · Halfpoint`,
    skip: 'Zum Inhalt',
    where: 'Wo Sie sind',
    contests: 'Wettbewerbe',
  },

  who: {
    'sign-in': 'Anmelden',
    'password-again': 'Ihr Passwort noch einmal',
    signedIn: 'Angemeldet als',
    notNow: 'Nicht jetzt',
  },

  theme: {
    label: 'Darstellung',
    device: 'Wie das Gerät',
    light: 'Hell',
    dark: 'Dunkel',
    sun: 'Sonne',
  },

  safety:
    'Nichts hier sagt, ob eine Figurenfolge sicher geflogen werden kann: Das entscheiden die Regeln des Wettbewerbs, seine Verantwortlichen, das Flughandbuch und die Behörden.',
  officeWays: 'Für das Büro',
  toPaper: 'Papierbögen eintippen',
  toPublish: 'Veröffentlichen',
  toProtests: 'Proteste',
  toSequence: 'Ihre Figurenfolge',
  toOrder: 'Startreihenfolge und Zeiten',
  toCards: 'Karten zum Drucken',

  stands: {
    all: 'Veröffentlichte Ergebnisse',
    judges: 'Analyse der Punktrichter',
    office: 'Wettbewerbsbüro',
    state: { provisional: 'Vorläufig', official: 'Offiziell' },
    line: (state: string, when: string, until: string) =>
      `${state}e Ergebnisse veröffentlicht am ${when}${until && `; Protest möglich bis ${until}`}`,
    toIt: (n: number) => `Veröffentlichung ${n}`,
    paper: (when: string) => `Stand vom ${when}. Dies sind keine veröffentlichten Ergebnisse.`,
  },
  save: {
    csv: 'Als CSV speichern',
    teams: 'Mannschaften als CSV speichern',
    json: 'Als JSON speichern',
    print: 'Drucken',
  },

  wait: {
    reading: (what: string) => `Wird geladen: ${what} …`,
    slow: 'Wird noch geladen. Das Netz ist hier langsam; nichts geht verloren.',
  },

  failure: {
    away: 'Der Server ist nicht erreichbar.',
    awayDo: 'Bitte das Netz prüfen. Diese Seite versucht es von selbst wieder, auf Wunsch auch sofort.',
    kept: 'Unten steht, was zuletzt geladen wurde.',
    missing: (what: string) => `${what} hier nicht gefunden oder nicht für alle freigegeben.`,
    missingDo: 'Bitte die Adresse prüfen oder bei der Liste der Wettbewerbe beginnen.',
    refused: (status: number, detail: string) =>
      `Der Server hat einen Fehler gemeldet (${status}): ${detail}`,
    refusedDo: 'Noch einmal versuchen; wenn es so bleibt, dem Wettbewerbsbüro diesen Satz nennen.',
    signIn: 'Das ist nur nach Anmeldung zu sehen.',
    signInDo: 'Nach dem Anmelden geht es hier weiter.',
    again: 'Noch einmal versuchen',
    nowhere: 'Unter dieser Adresse gibt es nichts.',
    toContests: 'Alle Wettbewerbe',
  },

  what: {
    contests: 'Wettbewerbe',
    page: 'Seite',
    thePage: 'Seite',
    contest: 'Wettbewerb',
    theContest: 'Wettbewerb',
    programme: 'Programm',
    category: 'Kategorie',
    flight: 'Flug',
    standings: 'Rangliste',
    sheet: 'Wertungsbogen',
  },

  line: {
    connecting: 'Verbindungsaufbau',
    live: 'live',
    lost: (since: string) => `seit ${since} nicht live, neuer Versuch läuft`,
    updated: (inNow: number, all: number) => `Die Rangliste hat sich geändert: ${scored(inNow, all)}.`,
  },

  contests: {
    heading: 'Wettbewerbe',
    make: 'Neuer Wettbewerb',
    seasons: 'Saisons über mehrere Wettbewerbe',
    emptyHeading: 'Noch ist kein Wettbewerb freigegeben',
    emptyDo: 'Ein Wettbewerb erscheint hier, sobald seine Leitung ihn für alle freigibt.',
    emptyOwner:
      'Legen Sie den ersten an. Er ist zuerst geschlossen, und seine Leitung gibt ihn für alle frei.',
  },

  contest: {
    setup: 'Einrichten',
    wall: 'Anzeige für eine Wand',
    yours: 'Ihre Seite als Pilot',
    methods: 'Wie eine Wertung zustande kommt',
    emptyHeading: 'Noch keine Kategorie',
    emptyDo: 'Kategorien und Programme erscheinen hier, sobald das Büro sie eingerichtet hat.',
    overall: 'Gesamt',
    overallDetail: 'alle Programme zusammen',
    pilots: (n: number) => plural(n, 'Pilot', 'Piloten'),
    noProgrammes: 'Für diese Kategorie ist noch kein Programm eingerichtet.',
    notCounted: 'zählt nicht',
    flightsIn: (inNow: number, all: number) =>
      all === 0
        ? 'noch keine Flüge'
        : inNow === all && all > 1
          ? `alle ${all} Flüge gewertet`
          : scored(inNow, all),
  },

  kind: {
    known: 'bekannte Pflicht',
    free: 'Kür',
    unknown: 'unbekannte Pflicht',
    freestyle: 'Freestyle',
  },

  standings: {
    title: (category: string, programme: string) => `${category} · ${programme}`,
    flightsIn: scored,
    rank: 'Rang',
    pilot: 'Pilot',
    score: 'Wertung',
    percent: '%',
    percentLong: 'Prozent vom Bestmöglichen',
    strip: 'Wo der Rang liegt, in 9 von 10 Fällen',
    range: (low: number, high: number) =>
      low === high
        ? `Rang ${low}, mindestens in 9 von 10 Fällen.`
        : `Rang ${low} bis ${high}, in 9 von 10 Fällen.`,
    first: (percent: number) =>
      percent === 0
        ? 'In 10\u202f000 Ziehungen nie auf Rang 1.'
        : percent === 100
          ? 'In jeder Ziehung auf Rang 1.'
          : `In ${percent} von 100 Fällen auf Rang 1.`,
    podium: (percent: number) =>
      percent === 0
        ? ''
        : percent === 100
          ? 'Immer unter den ersten drei.'
          : `In ${percent} von 100 Fällen unter den ersten drei.`,
    unranked: 'ohne Rang',
    noRank: '–',
    moved: (by: number) => (by > 0 ? `${by} nach oben` : `${-by} nach unten`),
    groups: {
      placed: '',
      waiting: 'In der Luft oder Noten stehen aus',
      scheduled: 'Noch zu fliegen',
      out: 'Ohne Wertung',
    },
    state: {
      flying: 'in der Luft',
      incomplete: 'Noten fehlen',
      unresolved: 'Entscheidung nötig',
      scheduled: 'noch zu fliegen',
      'not-flown': 'nicht geflogen',
      withdrawn: 'zurückgezogen',
      disqualified: 'disqualifiziert',
    },
    number: (n: number) => `Flug ${n}`,
    missing: (n: number, from: number[]) =>
      `${plural(n, 'Note fehlt', 'Noten fehlen')}${from.length > 0 ? ` von ${seats(from)}` : ''}`,
    decision: (items: string[]) => `Entscheidung des Oberpunktrichters nötig: ${list(items.map(itemName))}`,
    emptyHeading: 'Noch keine Flüge in diesem Programm',
    emptyDo: 'Piloten erscheinen hier, sobald das Büro die Startreihenfolge gemacht hat.',
    how: 'Wie diese Wertungen zustande kommen',
    cut: (n: number) =>
      n === 1 ? 'Der Beste kommt ins nächste Programm.' : `Die besten ${n} kommen ins nächste Programm.`,
    notCounted: 'Dieses Programm zählt nicht für die Gesamtwertung.',
    explain:
      'Der Streifen zeigt, wie sicher ein Rang ist: Der dunkle Strich ist der Rang nach der Wertung; das Band zeigt, wo der Rang in 9 von 10 Fällen liegt, wenn jede Wertung im Rahmen ihres Standardfehlers neu gezogen wird.',
  },

  method: {
    by: (name: string, seats: number) => `${name} von ${plural(seats, 'Sitz', 'Sitzen')}`,
    name: {
      consensus: 'Konsens',
      mean: 'Mittelwert',
      'trimmed-mean': 'gestutzter Mittelwert',
      normalised: 'normierte Summen',
    },
    how: {
      consensus:
        'Jede Note zählt so weit, wie sie mit dem Panel übereinstimmt: Ein Sitz, der streng, milde oder uneinheitlich wertet, wird ausgeglichen; eine Note weit von den anderen zählt weniger. Der Wertungsbogen eines Flugs zeigt, wie weit jeder Note vertraut wurde.',
      mean: 'Jede Figur zählt mit ihrem K mal dem Mittelwert der Noten des Panels.',
      'trimmed-mean':
        'Jede Figur zählt mit ihrem K mal dem Mittelwert der Noten des Panels, ohne die niedrigste und die höchste.',
      normalised:
        'Die Summen jedes Sitzes werden auf gleiche Höhe und gleiche Streuung gebracht; eine Summe weit von den anderen wird weggelassen; die Wertung ist der Mittelwert der übrigen.',
    },
    fallback: (asked: string, used: string) =>
      `Die Methode „${asked}“ braucht mehr Sitze oder mehr vollständige Flüge, als es bisher gibt; bis dahin gilt „${used}“.`,
  },

  category: {
    title: (category: string) => `${category} · Gesamt`,
    total: 'Gesamt',
    programmes: 'Programme',
    how: 'Wie diese Rangliste zustande kommt',
    notCounted: (programme: string) => `${programme} zählt nicht.`,
    cut: (programme: string, n: number) =>
      `Nach ${programme} kommen die besten ${n} weiter, und alle, die mit dem Letzten von ihnen gleich stehen: unter ihnen steht eine gestrichelte Linie.`,
    underWay:
      'Ein Programm ist noch im Gange: Wer es noch zu fliegen hat, hat daraus noch nichts in der Gesamtwertung.',
    teams: 'Mannschaften',
    team: 'Mannschaft',
    inTeam: (team: string) => `Mannschaft ${team}`,
    by: {
      sum: 'Die Gesamtwertung ist die Summe der Wertungen der Programme.',
      'sum-percent':
        'Die Gesamtwertung ist die Summe der Prozente der Programme, die unter deren Namen stehen.',
      'weighted-percent':
        'Die Gesamtwertung gewichtet die Prozente der Programme, die unter deren Namen stehen.',
    },
    emptyHeading: 'Noch ist kein Pilot gemeldet',
    emptyDo: 'Piloten erscheinen hier, sobald das Büro sie eingetragen hat.',
  },

  sheet: {
    number: (n: number) => `Flug\u00a0${n}`,
    rankLabel: 'Rang',
    of: (n: number) => `von ${n}`,
    score: 'Wertung',
    percent: 'Vom Bestmöglichen',
    figure: 'Figur',
    figures: 'Figur für Figur',
    numbered: (n: number) => `Figur ${n}`,
    fig: 'Fig',
    k: 'K',
    panel: 'Panel',
    points: 'Punkte',
    against: 'Gegen das Feld',
    legend: {
      heading: 'Wie eine Zeile zu lesen ist',
      dot: 'die Note eines Sitzes',
      faint: 'eine Note, der wenig vertraut wurde: je leerer, desto weniger zählt sie',
      hard: 'harte Null',
      perception: 'Wahrnehmungsnull',
      value: 'der Wert des Panels',
      field: 'die mittlere Hälfte des Felds',
    },
    wonWord: 'gewonnen',
    costWord: 'verloren',
    won: (points: string) => `${points} Punkte gegen das Feld gewonnen`,
    cost: (points: string) => `${points} Punkte gegen das Feld verloren`,
    swings: 'Gegen das Feld',
    gained: 'Am meisten gewonnen',
    lost: 'Am meisten verloren',
    noField:
      'Hier wird keine Figur mit dem Feld verglichen: Dafür braucht es drei Piloten, die dieselbe Figurenfolge geflogen sind.',
    remark: (seat: number, text: string) => `Sitz ${seat}: „${text}“`,
    picture: (grades: string, value: string) => `Noten ${grades}. Wert des Panels ${value}.`,
    totals: 'Wie sich die Wertung zusammensetzt',
    panelScore: 'Wertung des Panels',
    penalty: (kind: string, count: number) => (count === 1 ? kind : `${kind}, ${count}-mal`),
    noPenalties: 'Keine Strafpunkte',
    finalScore: 'Wertung',
    standardError: (value: string) => `Standardfehler der Wertung des Panels: ${value} Punkte.`,
    numbers: 'Dasselbe in Zahlen',
    numbersDetail:
      'Die Note jedes Sitzes; darunter, wie weit ihr vertraut wurde, in Prozent. Eine Note in Klammern wurde nicht so verwendet, wie sie gegeben wurde.',
    numbersDetailPlain:
      'Die Note jedes Sitzes. Eine Note in Klammern wurde nicht so verwendet, wie sie gegeben wurde.',
    toNumbers: 'Zu den Zahlen',
    seat: (n: number) => `Sitz ${n}`,
    rawTotal: 'Summe wie gegeben',
    usedTotal: 'Summe wie verwendet',
    weight: 'Anteil am Panel',
    discarded: 'weggelassen',
    emptyHeading: 'Dieser Flug hat noch keine Wertung',
    emptyDo: (state: string) =>
      `${upper(state)}. Der Wertungsbogen erscheint, sobald der Flug seine Wertung hat.`,
    absent: (numbers: number[]) =>
      `${seats(numbers)} ${verb(numbers, 'war', 'waren')} nicht besetzt und ${verb(numbers, 'übernimmt', 'übernehmen')} die Werte des Panels.`,
    positioned: 'Gesamtnote',
  },

  reason: {
    hardConfirmed: 'Harte Null bestätigt: Die Figur zählt bei jedem Sitz 0.',
    hardOverruled: (n: number[], value: string) =>
      `${hardZeros(n)} ${were(n)} vom Oberpunktrichter aufgehoben und ${counts(n)} mit ${value}, dem Wert des Panels.`,
    hardNotUpheld: (n: number[], value: string) =>
      `${hardZeros(n)} ${were(n)} nicht bestätigt und ${counts(n)} mit ${value}, dem Wert des Panels.`,
    zeroByMajority: (n: number[]) =>
      `${hardZeros(n)} ${counts(n)} 0: Die Mehrheit des Panels hat eine Null irgendeiner Art gegeben.`,
    perceptionConfirmed: (n: number[]) =>
      `${perceptionZeros(n)} ${were(n)} vom Oberpunktrichter bestätigt und ${counts(n)} 0.`,
    perceptionOverruled: (n: number[], value: string) =>
      `${perceptionZeros(n)} ${were(n)} vom Oberpunktrichter aufgehoben und ${counts(n)} mit ${value}, dem Wert des Panels.`,
    perceptionNotUpheld: (n: number[], value: string) =>
      `${perceptionZeros(n)} ${were(n)} nicht bestätigt und ${counts(n)} mit ${value}, dem Wert des Panels: Weniger als die Hälfte des Panels hat eine Null gegeben.`,
    notSeen: (n: number[], value: string) =>
      `${seats(n)} ${verb(n, 'hat', 'haben')} die Figur nicht gesehen und ${verb(n, 'übernimmt', 'übernehmen')} ${value}, den Wert des Panels.`,
    gradeSet: (value: string) => `Die Note wurde vom Oberpunktrichter auf ${value} festgesetzt.`,
    trimmed: (grades: { seat: number; grade: string }[]) =>
      `Als niedrigste und höchste Note weggelassen: ${list(grades.map(({ seat, grade }) => `${grade} von Sitz ${seat}`))}.`,
    outlier: (seat: number, grade: string, percent: number, value: string) =>
      percent === 0
        ? `Sitz ${seat} gab ${grade}; das zählte nicht: Das Panel sah ${value}.`
        : `Sitz ${seat} gab ${grade}; das zählte zu ${percent}\u202f%: Das Panel sah ${value}.`,
  },

  grade: {
    HZ: 'harte Null',
    PZ: 'Wahrnehmungsnull',
    A: 'nicht gesehen',
    '': 'keine',
  },
};

export default words;
