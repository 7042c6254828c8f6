/** The words of publishing, of protests and of the office's first page, in German. */
import type { publishWords } from './en-publish';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const words: typeof publishWords = {
  publish: {
    what: 'was veröffentlicht würde',
    heading: (what: string) => `Veröffentlichen · ${what}`,
    now: 'Was gilt',
    publish: 'Veröffentlichen',
    nothing: 'Davon ist noch nichts veröffentlicht.',
    next: 'Was jetzt veröffentlicht würde',
    same: 'Es sagt dasselbe wie das, was gilt.',
    differs: (n: number) =>
      `${plural(n, 'Zahl oder Angabe ist', 'Zahlen oder Angaben sind')} anders als in dem, was gilt.`,
    first: 'Es wäre die erste Veröffentlichung davon.',
    noStanding: 'So, wie es eingerichtet ist, lässt es sich nicht werten.',
    toProtests: 'Proteste',

    as: 'Veröffentlichen als',
    states: {
      provisional: 'vorläufig, Protest möglich',
      official: 'offiziell',
    },
    against: 'Was gegen das Veröffentlichen spricht',
    nothingAgainst: 'Nichts spricht gegen das Veröffentlichen.',
    override: 'Mit einer Begründung, die mit veröffentlicht wird, können Sie trotzdem veröffentlichen.',
    final: 'keine Begründung ändert das',
    minutes: 'Protestfrist in Minuten',
    minutesWhy: 'Leer: kein Protest möglich.',
    pause: 'Ruht über Nacht',
    pauseFrom: 'Von',
    pauseUntil: 'Bis',
    reason: 'Begründung',
    reasonWhy:
      'Wird veröffentlicht und ist für alle zu lesen. Nötig, um offizielle Ergebnisse zu berichtigen und wenn etwas gegen das Veröffentlichen spricht.',
    forGood:
      'Eine Veröffentlichung bleibt für immer. Ein Fehler wird durch eine weitere berichtigt, die sagt, was sie geändert hat.',
    password: 'Bevor Ergebnisse offiziell werden, wird Ihr Passwort verlangt.',
    does: { provisional: 'Als vorläufig veröffentlichen', official: 'Als offiziell veröffentlichen' },
    doing: 'Wird veröffentlicht …',
    done: (n: number) => `Veröffentlichung ${n} ist signiert und gilt.`,
    already: (n: number) => `Nichts Neues wurde veröffentlicht: Veröffentlichung ${n} sagt dasselbe.`,
    director: 'Nur die Wettbewerbsleitung veröffentlicht. Sie sehen, was veröffentlicht würde.',

    counting: 'Zählt es?',
    counted: 'Es zählt für die Gesamtwertung.',
    notCounted: 'Es zählt nicht für die Gesamtwertung.',
    abandoned: 'Es wurde abgebrochen und zählt nicht.',
    decided: (reason: string) => `Begründung: ${reason}`,
    decide: 'Festlegen',
    choices: {
      counts: 'Es zählt',
      not: 'Es zählt nicht',
      abandoned: 'Es ist abgebrochen: zählt nicht und wird veröffentlicht, so weit es geflogen wurde',
    },
    countingReason: 'Warum',
    countingReasonWhy: 'Wird mit dem Programm veröffentlicht.',
    countingDoing: 'Wird festgelegt …',
  },

  protests: {
    what: 'Proteste',
    heading: (what: string) => `Proteste · ${what}`,
    none: 'Es wurde kein Protest eingelegt',
    noneDo:
      'Solange die Protestfrist läuft, kann ein Pilot des Programms Protest einlegen, oder das Büro für ihn.',
    filed: (when: string) => `eingelegt ${when}`,
    against: (n: number) => `gegen Veröffentlichung ${n}`,
    open: 'wartet auf eine Entscheidung',
    upheld: 'stattgegeben',
    rejected: 'abgelehnt',
    decided: (when: string) => `entschieden ${when}`,
    reopened: 'Ein Flug wurde wieder geöffnet.',
    file: 'Protest einlegen',
    pilot: 'Pilot',
    text: 'Wogegen sich der Protest richtet, und warum',
    does: 'Protest einlegen',
    doing: 'Wird eingelegt …',
    done: 'Der Protest ist eingelegt. Die Wettbewerbsleitung entscheidet darüber.',
    closed: 'Zurzeit läuft keine Protestfrist.',
    until: (when: string) => `Die Protestfrist läuft bis ${when}.`,
    decision: 'Entscheidung',
    uphold: 'Stattgeben',
    reject: 'Ablehnen',
    decisionText: 'Die Entscheidung in Worten',
    reopen: 'Flug wieder öffnen',
    decides: 'Entscheiden',
    deciding: 'Wird entschieden …',
    toPublish: 'Veröffentlichen',
  },

  needs: {
    what: 'was Sie braucht',
    heading: (contest: string) => `${contest} · Büro`,
    needs: 'Was Sie braucht',
    none: 'Nichts braucht Sie',
    noneDo:
      'Was auf eine Unterschrift, eine Entscheidung oder ein Wort von Ihnen wartet, erscheint hier von selbst.',
    more: (n: number) => `und ${n} weitere`,
    urgency: { now: 'jetzt', soon: 'bald', later: 'zu seiner Zeit' },
    until: (when: string) => `bis ${when}`,
    changed: (n: number) =>
      n === 0 ? 'Jetzt braucht Sie nichts.' : `${plural(n, 'Sache braucht', 'Sachen brauchen')} Sie.`,
    publish: 'Ergebnisse veröffentlichen',
    flown: 'Startreihenfolgen und Papierbögen',
    order: (programme: string) => `Startreihenfolge: ${programme}`,
    paper: (programme: string) => `Papierbögen: ${programme}`,
    places: 'Weitere Arbeit des Büros',
    sequences: 'Figurenfolgen',
    setup: 'Einrichten',
    devices: 'Tablets',
    scan: 'Codes eines Tablets einlesen',
    people: 'Personen und Rollen',
    published: 'Veröffentlichte Ergebnisse',
    audit: 'Ist alles noch, was es war?',
    auditWhy:
      'Geht das Journal des Wettbewerbs durch, prüft jeden Eintrag und jede Signatur und rechnet jede Veröffentlichung nach; nennt auch, wo der Server aus einer Sicherung wiederhergestellt wurde.',
    auditDo: 'Alles Aufbewahrte prüfen',
    auditing: 'Wird geprüft …',
    auditAgrees: 'Alles stimmt überein.',
    auditNot: 'Etwas stimmt nicht überein. Bitte den Server lassen, wie er ist, und die Jury verständigen.',
  },
  toOffice: 'Das Büro des Wettbewerbs',
};

export default words;
