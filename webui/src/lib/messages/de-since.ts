/** Was seit einer Veröffentlichung anders ist. */

import type { sinceWords } from './en-since';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const words: typeof sinceWords = {
  since: {
    heading: (n) => `Seit Veröffentlichung ${n}`,
    nothing: (when) => `Seit der Veröffentlichung am ${when} hat sich nichts geändert.`,
    changed: (when) => `Anders als am ${when} veröffentlicht:`,
    toIt: (n) => `Veröffentlichung ${n}`,
    rank: (to, from) =>
      from === '' ? `Rang ${to}` : to === '' ? `kein Rang, vorher ${from}` : `Rang ${to}, vorher ${from}`,
    score: (to, from) =>
      from === ''
        ? `Wertung ${to}`
        : to === ''
          ? `keine Wertung, vorher ${from}`
          : `Wertung ${to}, vorher ${from}`,
    total: (to, from) => (from === '' ? `Summe ${to}` : `Summe ${to}, vorher ${from}`),
    more: (n) => plural(n, 'weitere Änderung', 'weitere Änderungen'),
  },
};

export default words;
