/** Die Anzeige für eine Wand. */

import type { wallWords } from './en-wall';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const words: typeof wallWords = {
  wall: {
    title: (contest) => `${contest} · Anzeige`,
    link: 'Anzeige für eine Wand',
    teams: 'Mannschaften',
    empty: 'Noch nichts zu zeigen',
    emptyDo: 'Ranglisten erscheinen hier von selbst, sobald es welche gibt.',
    rows: (from, to, of) =>
      from === 1 && to === of ? plural(of, 'Platz', 'Plätze') : `Plätze ${from} bis ${to} von ${of}`,
    board: (n, of) => `Tafel ${n} von ${of}`,
    flying: (names) => `In der Luft: ${names}`,
    waiting: (n) => `${plural(n, 'Flug wartet', 'Flüge warten')} auf Noten`,
    toFly: (n) => `${n} noch zu fliegen`,
    published: (state, when) => `${state}, veröffentlicht ${when}`,
    lost: (since) =>
      `Seit ${since} keine Verbindung. So stand es da; es geht von selbst weiter, sobald das Netz zurück ist.`,
    controls: 'Die Anzeige',
    back: 'Seite zurück',
    on: 'Nächste Seite',
    pause: 'Anhalten',
    go: 'Weiter',
    paused: 'angehalten',
    full: 'Ganzer Bildschirm',
    notFull: 'Ganzen Bildschirm verlassen',
    leave: 'Anzeige verlassen',
    keys: 'Tasten: Pfeile blättern, Leertaste hält an, F füllt den Bildschirm.',
  },
};

export default words;
