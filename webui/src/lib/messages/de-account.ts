/** The words of signing in, of one's own account and of the people of a contest, in German. */
import type { accountWords } from './en-account';

const roles = {
  director: 'Wettbewerbsleitung',
  office: 'Wettbewerbsbüro',
  jury: 'Jury',
  pilot: 'Pilot',
  judge: 'Punktrichter',
  assistant: 'Assistent',
  chief: 'Oberpunktrichter',
  announcer: 'Sprecher',
};

const words: typeof accountWords = {
  roles,

  fields: {
    email: 'E-Mail-Adresse',
    name: 'Ihr Name',
    nameWhy: 'So, wie andere ihn sehen.',
    password: 'Passwort',
    newPassword: 'Neues Passwort',
    newPasswordWhy:
      'Mindestens 12 Zeichen. Ein paar Wörter hintereinander sind gut; Ziffern oder Sonderzeichen sind nicht nötig.',
    code: 'Code Ihres zweiten Faktors',
    codeWhy: 'Sechs Ziffern, wie Ihre Authenticator-App sie jetzt zeigt.',
  },

  signIn: {
    heading: 'Anmelden',
    lead: 'Für Wettbewerbsleitung, Wettbewerbsbüro, Jury und Piloten. Punktrichter brauchen kein Konto: Das Büro koppelt ihr Tablet. Für die Ergebnisse braucht es gar nichts.',
    do: 'Anmelden',
    doing: 'Anmeldung läuft …',
    stays: 'Was Sie auf dieser Seite eingegeben haben, bleibt stehen.',
    over: 'Sie sind abgemeldet, oder Ihre Sitzung ist abgelaufen.',
    byLink: 'Anmeldung über den Link läuft …',
    already: (name: string) => `Sie sind angemeldet als ${name}.`,
    on: 'Weiter',
    other: 'Als jemand anders anmelden',
    forgotten:
      'Passwort vergessen? Wer den Server betreibt, erzeugt einen Link für ein neues: halfpoint account reset.',
  },

  again: {
    lead: (name: string) =>
      `Dafür ist das Passwort von ${name} noch einmal nötig. Es gilt dann zehn Minuten lang.`,
    do: 'Weiter',
  },

  first: {
    heading: 'Das erste Konto',
    lead: 'Auf diesem Server hat noch niemand ein Konto. Diesem ersten gehört der Server: Es legt Wettbewerbe an und lädt deren Leitung ein.',
    do: 'Konto anlegen',
    doing: 'Konto wird angelegt …',
    noLink:
      'Diese Seite braucht den Link, den der Server beim Start ausgegeben hat. Wird er neu gestartet, gibt er einen neuen aus.',
  },

  password: {
    heading: 'Ein neues Passwort',
    do: 'Passwort setzen',
    doing: 'Passwort wird gesetzt …',
    done: 'Das Passwort ist gesetzt, und alle früheren Sitzungen sind beendet. Bitte damit anmelden.',
    noLink: 'Diese Seite braucht den Link, mit dem ein Passwort gesetzt wird.',
  },

  invitation: {
    heading: 'Eine Einladung',
    reading: 'Einladung',
    offer: (role: string, contest: string) => `${role} bei ${contest}`,
    pilot: (name: string) => `Das Konto wird das von ${name}.`,
    judge: (name: string) =>
      `Das Konto wird das von ${name} und zeigt, wie ${name} neben den anderen gewertet hat.`,
    as: (name: string) => `Sie sind angemeldet als ${name} und nehmen mit diesem Konto an.`,
    accept: 'Annehmen',
    accepting: 'Wird angenommen …',
    notMe: 'Mit einem anderen Konto',
    new: 'Zum Annehmen ein Konto anlegen.',
    have: 'Ich habe hier ein Konto',
    do: 'Konto anlegen und annehmen',
    noLink: 'Diese Seite braucht den ganzen Link, der Ihnen geschickt wurde.',
  },

  account: {
    heading: 'Ihr Konto',
    reading: 'Ihr Konto',
    signOut: 'Abmelden',
    owner: 'Eigentümer dieses Servers',
    none: 'Noch keine Rolle in einem Wettbewerb. Eine Wettbewerbsleitung schickt Ihnen einen Link.',
    noneOwner: 'Wem der Server gehört, der leitet jeden Wettbewerb darauf.',
    make: 'Neuer Wettbewerb',
    roles: 'Was Sie sind, und wo',
    people: 'Personen und Einladungen',
    analysis: 'Ihre eigene Analyse',
    until: (day: string) => `Sie bleiben bis zum ${day} angemeldet, wenn Sie sich nicht abmelden.`,
  },

  sessions: {
    heading: 'Wo Sie angemeldet sind',
    why: 'Was Sie nicht kennen, bitte beenden; dann das Passwort ändern.',
    here: 'dieser Browser',
    seen: (when: string) => `zuletzt gesehen ${when}`,
    since: (when: string) => `seit ${when}`,
    end: 'Beenden',
    ended: 'Die Sitzung ist beendet.',
    reading: 'Ihre Sitzungen',
    session: 'Sitzung',
    unknown: 'Ein unbekannter Browser',
    on: (browser: string, system: string) => `${browser} auf ${system}`,
  },

  change: {
    heading: 'Passwort',
    present: 'Jetziges Passwort',
    do: 'Ändern',
    doing: 'Wird geändert …',
    done: 'Ihr Passwort ist geändert, und überall sonst sind Sie abgemeldet.',
    open: 'Passwort ändern',
  },

  factor: {
    heading: 'Zweiter Faktor',
    on: 'Beim Anmelden wird ein Code aus Ihrer Authenticator-App verlangt.',
    off: 'Mit einem zweiten Faktor kommt niemand allein mit Ihrem Passwort hinein. Wettbewerbsleitung und Büro sollten einen haben.',
    setUp: 'Einrichten',
    scan: 'Diesen Code mit einer Authenticator-App einlesen oder den Schlüssel dort eintippen.',
    qr: 'QR-Code mit dem Schlüssel Ihres zweiten Faktors',
    key: 'Schlüssel',
    confirm: 'Bestätigen',
    cancel: 'Nicht jetzt',
    remove: 'Entfernen',
    sure: 'Ohne ihn kommt jeder allein mit Ihrem Passwort hinein. Entfernen?',
    removed: 'Der zweite Faktor ist entfernt.',
    confirmed: 'Der zweite Faktor ist eingerichtet. Ab dem nächsten Anmelden wird er verlangt.',
    keep: 'Behalten',
    lost: 'Wenn Sie das Gerät verlieren, kann ihn entfernen, wer den Server betreibt.',
  },

  people: {
    heading: 'Personen und Einladungen',
    reading: 'wer welche Rolle hat',
    page: 'Wettbewerb',
    members: 'Wer welche Rolle hat',
    membersNone: 'In diesem Wettbewerb hat noch niemand eine Rolle',
    membersNoneDo:
      'Einen Link für die Leitung, das Büro, einen Piloten, einen Punktrichter oder die Jury erzeugen und verschicken.',
    since: 'Seit',
    take: 'Entziehen',
    takeSure: (name: string, role: string) => `${name} die Rolle „${role}“ entziehen?`,
    keep: 'Lassen',
    taken: 'Die Rolle ist entzogen.',
    invite: 'Jemanden einladen',
    forRole: 'Rolle',
    forPilot: 'Welcher Pilot',
    pilotsNone: 'In diesem Wettbewerb gibt es noch keinen Piloten: bitte zuerst die Piloten eintragen.',
    forJudge: 'Welcher Punktrichter',
    judgesNone:
      'In diesem Wettbewerb gibt es noch keinen Punktrichter: bitte zuerst die Punktrichter eintragen.',
    judgeWhy: 'Damit ist die eigene Analyse zu lesen; gewertet wird wie bisher am Gerät des Sitzes.',
    note: 'Für wen er ist',
    noteWhy: 'Nur für Sie, um den Link wiederzuerkennen. Darf leer bleiben.',
    make: 'Link erzeugen',
    making: 'Link wird erzeugt …',
    made: 'Der Link wird nur dieses eine Mal gezeigt. Er gilt einmal und zwei Wochen lang.',
    copy: 'Link kopieren',
    copied: 'Kopiert.',
    qr: 'QR-Code mit dem Link',
    waiting: 'Einladungen',
    until: (day: string) => `gilt bis ${day}`,
    accepted: (day: string) => `angenommen am ${day}`,
    past: 'gilt nicht mehr',
    withdraw: 'Zurückziehen',
    withdrawn: 'Die Einladung ist zurückgezogen.',
  },
};

export default words;
