/** The words of the pages that tell how a score comes about. */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

export const methodWords = {
  working: {
    what: 'the working',
    thing: 'score',
    heading: (name: string) => `How the score of ${name} came about`,
    chosen: 'Whose score',
    published: (n: number, state: string) => `publication ${n}, ${state}`,
    live: 'live, as it stands now',
    calculator:
      'Every number below is rounded as it is shown, and the next one follows from what is shown: a pocket calculator comes to the score.',
    tolerance: (decimals: number) =>
      `A value that you work out may differ from the one shown by one in its last decimal, the ${ordinal(decimals)}; the score comes out exactly.`,
    toSheet: 'The sheet',
    toMethods: 'The four methods, and how accurate they are',
    fallback: (asked: string, used: string) =>
      `The ${asked} needs more seats or more complete flights than there were, so the ${used} was used.`,
    steps: 'Step by step',
    figure: 'Figure',
    k: 'K',
    seat: (n: number) => `Seat ${n}`,
    value: 'Value',
    points: 'K × value',
    used: 'used as',
    trust: 'trust',
    share: 'Share of the panel',
    sum: 'Sum',
    noGrades:
      'Codes that are not confirmed, and what a seat did not see, are gaps: they are not counted in the row.',
    filled: 'A gap has the mean of the row’s other grades.',
    zeros: 'counts 0',
    fit: 'as it was fitted',
    total: 'Total',
    discarded: 'left out',
    noTotal: 'no total',
    panelScore: 'Panel score',
    penalty: (kind: string, count: number, points: string) =>
      count === 1 ? kind : `${kind}, ${count} times ${points}`,
    score: 'Score, rounded to two decimals',
    floor: 'A score is never below 0.',
    percent: (score: string, best: string, percent: string) =>
      `${score} of ${best}, which is 10 times the sum of K: 100 × ${score} / ${best} = ${percent} %.`,
    one: (item: string) => `Worked out for ${item}`,
    mean: {
      words: ['Each row’s value is the mean of the grades that count, and K times the value are its points.'],
      line: (sum: string, n: number, value: string) => `(${sum}) / ${n} = ${value}`,
    },
    trimmed: {
      words: [
        'In each row the lowest and the highest grade are left out where at least three remain. The value is the mean of the rest, and K times the value are its points.',
      ],
    },
    weighted: {
      words: [
        'First each seat’s own level and spread are taken off, so that strict and generous seats are alike: what a grade is used as stands under it. That is found from all flights of the programme together, and cannot be found from one sheet.',
        'Then each grade is weighed: by the seat’s share of the panel, which is the larger the better the seat agrees with what the panel sees, and by how far this one grade is trusted, from 0 to 1: less the farther it lies from the panel’s value, and less where a seat leans for or against the pilot.',
        'The row’s value is the mean of what the grades are used as, each weighed by share × trust, held between 0 and 10. K times the value are its points.',
      ],
      line: (up: string, down: string, value: string) => `(${up}) / (${down}) = ${value}`,
      rounds:
        'Shares, trusts and values depend on each other: the program finds them together, going round until no value moves by 10⁻⁹. The numbers shown are those of the last round.',
    },
    totals: {
      words: [
        'Each seat’s total of the flight is the sum of K × grade.',
        'Each total is then moved: what lies between it and the seat’s own mean over all flights is stretched by the panel’s spread over the seat’s own, and added to the mean of all seats’ means.',
        'Totals far from the others of the flight are left out. The panel score is the mean of the rest.',
      ],
      level: (mean: string, spread: string) =>
        `Mean of all seats’ means: ${mean}. Spread of the panel: ${spread}.`,
      line: (mean: string, total: string, own: string, spread: string, ownSpread: string, moved: string) =>
        `${mean} + (${total} − ${own}) × ${spread} / ${ownSpread} = ${moved}`,
      plain: (mean: string, total: string, own: string, moved: string) =>
        `${mean} + (${total} − ${own}) = ${moved}`,
      score: (sum: string, n: number, value: string) => `(${sum}) / ${n} = ${value}`,
    },
    options: (text: string) => `Set for this programme: ${text}.`,
    option: {
      trim: (n: number) => `${plural(n, 'grade', 'grades')} left out at each end`,
      discard: (n: string) => `totals beyond ${n} standard deviations left out`,
      outlier: (n: string) => `no trust beyond ${n} standard deviations`,
      lean: (n: string) => `less trust for a seat that leans beyond ${n} standard deviations`,
    },
  },

  methods: {
    heading: 'How a score comes about',
    lead: 'The director chooses one method for each programme, and it stands from the first call. A method that needs more seats or flights than there are gives way to the mean, and the result says so.',
    needs: {
      mean: 'It needs one seat and one flight.',
      'trimmed-mean': 'It needs five seats.',
      normalised:
        'It needs four seats and five complete flights. With four seats nothing can be left out at 1.645 standard deviations.',
      consensus: 'It needs four seats and five complete flights.',
    },
    own: 'Every score has a page that works it out in its own numbers: from a pilot’s sheet, “How this score came about”.',
    accuracy: 'How accurate the methods are',
    accuracyLead:
      'Contests are simulated whose true order is known; panels with known faults grade them; each method’s standing is held against the truth. The limit is what could be had if everything about the judges were known.',
    names: {
      scenario: 'Panel',
      mean: 'mean',
      'trimmed-mean': 'trimmed mean',
      normalised: 'normalised totals',
      consensus: 'consensus',
      limit: 'limit',
    } as Record<string, string>,
  },
};

function ordinal(n: number): string {
  return `${n}${['th', 'st', 'nd', 'rd'][n] ?? 'th'}`;
}
