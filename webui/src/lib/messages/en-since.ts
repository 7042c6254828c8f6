/** The words of what changed since a publication: few, for they load with a standing. */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

export const sinceWords = {
  since: {
    heading: (n: number) => `Since publication ${n}`,
    nothing: (when: string) => `Nothing has changed since it was published on ${when}.`,
    changed: (when: string) => `What stands otherwise than was published on ${when}:`,
    toIt: (n: number) => `Publication ${n}`,
    rank: (to: string, from: string) =>
      from === '' ? `rank ${to}` : to === '' ? `no rank, was ${from}` : `rank ${to}, was ${from}`,
    score: (to: string, from: string) =>
      from === '' ? `score ${to}` : to === '' ? `no score, was ${from}` : `score ${to}, was ${from}`,
    total: (to: string, from: string) => (from === '' ? `total ${to}` : `total ${to}, was ${from}`),
    more: (n: number) => `${plural(n, 'more change', 'more changes')}`,
  },
};
