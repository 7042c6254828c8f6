/** Ranglisten über mehrere Wettbewerbe. */

import type { seasonWords } from './en-season';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const words: typeof seasonWords = {
  seasons: {
    what: 'Saisons',
    heading: 'Saisons',
    none: 'Hier gibt es noch keine Saison',
    noneDo:
      'Wer die Wettbewerbe leitet, macht eine. Eine Saison ist öffentlich, wenn alle ihre Wettbewerbe offen sind.',
    make: 'Eine Saison machen',
    name: 'Ihr Name',
    nameWhy: 'Wie auf ihrer Seite: Nordliga 2027.',
    making: 'Wird gemacht …',
    noContests: 'noch keine Wettbewerbe',
  },

  season: {
    what: 'Saison',
    thing: 'Saison',
    change: 'Regeln und Wettbewerbe',
    people: 'Wer ist wer',
    empty: 'Noch kein Wettbewerb ist dabei',
    emptyDo: 'Die Leitung nimmt Wettbewerbe unter Regeln und Wettbewerbe auf.',
    nobody: 'Von dem, was hier zählt, ist noch nichts veröffentlicht.',
    rank: 'Rang',
    noRank: '–',
    pilot: 'Pilot',
    affiliation: 'Verein/Land',
    total: 'Summe',
    notCounted: 'zählt nicht',
    counts: (contest) => `${contest}: zählt`,
    yes: 'ja',
    no: 'nein',
    provisional: 'vorläufig',
    counted:
      'In Klammern: zählt nach den Regeln nicht. Mit Stern: aus vorläufigen Ergebnissen, kann sich ändern.',
    waiting: (names) => `Noch nicht veröffentlicht: ${names}.`,
    how: 'Wie gerechnet wird',
    alone:
      'Ein Pilot zweier Wettbewerbe steht hier zweimal, bis ein Büro bestätigt, dass es eine Person ist.',
    rules: {
      rank: (table) => `Nach Platz: ${table} Punkte für die Plätze 1, 2 und so weiter; danach 0.`,
      'percent-of-winner': 'Punkte sind Prozent der Summe des Siegers im Wettbewerb.',
      'percent-of-maximum': 'Punkte sind Prozent der besten möglichen Summe im Wettbewerb.',
      mean: 'Gleiche Plätze teilen sich das Mittel der Punkte der Plätze, die sie einnehmen.',
      full: 'Gleiche Plätze erhalten je die Punkte des Platzes.',
      places: 'Plätze sind die des Wettbewerbs, unter allen, die ihn geflogen haben.',
      best: (n) => (n === 1 ? 'Das beste Ergebnis zählt.' : `Die besten ${n} Ergebnisse zählen.`),
      all: 'Alle Ergebnisse zählen.',
      drop: (n) =>
        `${plural(n, 'Wettbewerb darf', 'Wettbewerbe dürfen')} fehlen oder misslingen: So viele zählen weniger.`,
      least: (n) =>
        `Wer weniger als ${plural(n, 'Wettbewerb', 'Wettbewerbe')} geflogen hat, hat keinen Rang.`,
      ties: (names) => `Gleiche Summen: ${names.join(', dann ')}; danach wird der Rang geteilt.`,
      shared: 'Gleiche Summen teilen sich den Rang.',
      affiliations: (names) => `Nur Mitglieder von ${names} stehen darin.`,
    },
    breaks: {
      best: 'das bessere Einzelergebnis',
      wins: 'mehr erste Plätze',
      most: 'mehr geflogene Wettbewerbe',
      latest: 'mehr Punkte im letzten Wettbewerb',
    },
  },

  setup: {
    heading: (name) => `${name}: Regeln und Wettbewerbe`,
    what: 'Regeln und Wettbewerbe',
    contests: 'Wettbewerbe',
    contestsWhy:
      'In der Reihenfolge, in der sie geflogen werden. Jede Zeile ist eine Kategorie eines Wettbewerbs und die Rangliste, zu der sie beiträgt. Nur veröffentlichte Ergebnisse zählen.',
    none: 'Noch keine: eine Kategorie eines Wettbewerbs hinzufügen.',
    contest: 'Wettbewerb',
    category: 'Kategorie',
    standing: 'Trägt bei zur Rangliste',
    standingWhy:
      'Kategorien mit gleichem Namen hier bilden eine Rangliste, wie immer sie in ihren Wettbewerben heißen.',
    add: 'Hinzufügen',
    up: 'Früher',
    remove: 'Herausnehmen',
    pick: 'auswählen',
    rules: 'Regeln',
    name: 'Name',
    points: 'Punkte',
    pointsAre: {
      'percent-of-maximum':
        'Prozent der besten möglichen Summe: Verschieden lange Wettbewerbe wiegen gleich, und ein schwerer Tag kostet Punkte.',
      'percent-of-winner': 'Prozent der Summe des Siegers: 100 für jeden Sieger, wie immer das Wetter war.',
      rank: 'Nach Platz: Nur die Reihenfolge zählt, nicht der Abstand.',
    },
    table: 'Punkte für Platz 1, 2 und so weiter',
    tableWhy: 'Zahlen mit Leerzeichen dazwischen: 25 18 15 12 10. Weitere Plätze erhalten nichts.',
    ties: 'Gleiche Plätze',
    tiesAre: {
      mean: 'teilen sich das Mittel der Plätze, die sie einnehmen (25 und 18 ergeben je 21.5)',
      full: 'erhalten je die Punkte des Platzes',
    },
    best: 'Wie viele Ergebnisse zählen',
    bestWhy: '0: alle. Mit 3 die besten drei jedes Piloten.',
    drop: 'Wie viele fehlen dürfen',
    dropWhy: 'Mit 1 zählt ein Wettbewerb weniger, als die Saison hat: Wer einen versäumt, verliert nichts.',
    least: 'Wettbewerbe für einen Rang',
    leastWhy: '0: einer genügt. Wer weniger geflogen hat, steht darunter, ohne Rang.',
    breaks: 'Gleiche Summen trennt, in dieser Reihenfolge',
    breakNone: 'nichts weiter',
    affiliations: 'Nur Mitglieder von',
    affiliationsWhy: 'Je Zeile ein Verein oder Land, geschrieben wie in den Wettbewerben. Leer: alle.',
    save: 'Speichern',
    saving: 'Wird gespeichert …',
    saved: 'Gespeichert.',
    delete: 'Diese Saison löschen',
    deleteWhy:
      'Ihre Ranglisten, ihre Regeln und wer in ihr wer ist, gehen für immer verloren. Die Wettbewerbe und alles, was sie veröffentlicht haben, bleiben.',
    deleteSure: 'Endgültig löschen',
    deleting: 'Wird gelöscht …',
    keep: 'Behalten',
  },

  who: {
    heading: (name) => `${name}: wer ist wer`,
    what: 'Wer ist wer',
    lead: 'Ein Pilot des einen Wettbewerbs ist im anderen niemand, bis Sie es sagen. Nichts wird von selbst verbunden.',
    proposed: 'Gleicher Name und Verein',
    proposedNone: 'Niemand mit gleichem Namen und Verein ist noch zu bestätigen.',
    confirm: 'Eine Person',
    all: (n) => `Alle ${n} bestätigen`,
    confirmed: 'Bestätigt',
    confirmedNone: 'Noch niemand ist bestätigt.',
    apart: 'Trennen',
    byHand: 'Zwei von Hand verbinden',
    byHandWhy: 'Für einen verschieden geschriebenen Namen oder einen gewechselten Verein.',
    first: 'Dieser Pilot',
    second: 'und dieser',
    join: 'sind eine Person',
    joining: 'Wird gespeichert …',
    saved: 'Gespeichert.',
    twice: 'Zwei Piloten eines Wettbewerbs können nicht eine Person sein.',
    meanwhile: 'Jemand anders hat die Saison inzwischen geändert. Unten steht, was jetzt gilt.',
  },
};

export default words;
