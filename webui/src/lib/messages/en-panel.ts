/** The words of how good a panel is: what each number is, and what it means in plain words. */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;
const more = (value: number) => (value < 0 ? 'lower' : 'higher');

export const panelWords = {
  chart: {
    table: 'As a table',
    failed: 'The picture could not be loaded. The table has the same numbers.',
  },

  analyses: {
    what: 'whose analysis there is to see',
    heading: 'Judges’ analysis',
    lead: 'How each judge graded beside the others, and how far a panel agrees with itself. It looks at closed flights alone.',
    private:
      'A judge’s numbers are the judge’s own. The director, the office and the jury see them; everyone else does when the director publishes them.',
    none: 'There is no analysis here for you to see',
    noneDo:
      'A judge signs in with the account that the invitation for that judge made, or opens this page on the device of the seat. The own analysis is there once results of the programme are published.',
    panel: 'The panel',
    own: 'Your own analysis',
    waits: 'Your own analysis comes when results are published',
    published: (when: string) => `published ${when}`,
  },

  panel: {
    what: 'how good the panel is',
    heading: (what: string) => `The panel · ${what}`,
    from: (n: number, method: string) =>
      `${plural(n, 'closed flight', 'closed flights')}, scored by ${method}`,
    none: 'No flight is closed yet',
    noneDo: 'The numbers come with the flights that the chief judge closes.',
    agreement: 'How far the panel agrees with itself',
    value: 'Value',
    winner: (names: string) => `First: ${names}`,
    noWinner: 'Nobody is first yet.',
    flight: (n: number) => `flight ${n}`,
    agreements: {
      icc_single: 'One judge, ICC(2,1)',
      icc_panel: 'The panel, ICC(2,k)',
      kendall_w: 'The orders, Kendall’s W',
      cronbach_alpha: 'Cronbach’s α',
    },
    agreementMeans: {
      icc_single: (v: string) =>
        `Of all that makes one judge’s totals differ, ${v} of 1 comes from the flights and the rest from the judge. It is what a single judge would be worth alone.`,
      icc_panel: (v: string) =>
        `The same of the mean of the whole panel: ${v} of 1. Near 1, another panel as good would hardly find another result.`,
      kendall_w: (v: string) =>
        `How alike the judges’ orders of the pilots are: ${v}, where 1 is one order from all and 0 none.`,
      cronbach_alpha: (v: string) =>
        `How well the judges’ totals go together, whatever their levels: ${v}, where 1 is in step. It grows with the number of seats.`,
    },
    over: (flights: number, seats: number) =>
      `From ${plural(flights, 'flight', 'flights')} that all of ${plural(seats, 'seat', 'seats')} graded.`,
    unknown: 'It cannot be computed: too few flights or seats, or nothing varies.',

    without: 'What hangs on one seat',
    withoutLead: 'The programme is scored again without each seat in turn.',
    withoutTitle: 'Largest change of rank without each seat',
    withoutReads:
      'One bar a seat: by how many ranks somebody moves most. A word behind it where another pilot would be first.',
    withoutHead: ['Without', 'Ranks moved', 'Whose', 'First'],
    seat: (n: number) => `Seat ${n}`,
    ranks: 'ranks',
    otherFirst: 'another first',
    nobody: 'nobody',
    steady: 'Whoever is left out, no rank changes.',
    moves: (n: number) => `Leaving out one seat moves a pilot by ${plural(n, 'rank', 'ranks')} at most.`,
    sameFirst: 'The first stays first without any one seat.',
    changedFirst: (seats: string) => `Another pilot would be first without ${seats}.`,

    judges: 'Each judge against the panel',
    judgesLead:
      'The farther a dot lies from the line, the more there is to look at. None of these numbers proves anything by itself.',
    dots: {
      difference: [
        'Shift',
        'Points a grade above or below the others for the same figures. The line is none.',
        'points',
      ],
      deviation: [
        'Spread',
        'How far the judge’s own grades spread. The line is the middle of the panel.',
        'points',
      ],
      order_disagreement: [
        'Order',
        'Disagreement with the panel’s order of the pilots. The line is none.',
        'per cent',
      ],
      accuracy: ['Accuracy', 'Distance from the panel’s values. The line is as exact as the panel.', 'times'],
    },
    dotsHead: 'Seat',
    one: 'One judge',
    pick: 'Which judge',

    publish: 'Publish the analysis',
    publishMeans: [
      'Everyone who sees the contest will see every judge’s numbers by name: shift, spread, zeros that were not upheld, the weight, and the difference for pilots of the own affiliation.',
      'It cannot be taken back: whoever has read it has read it. If a flight is corrected later, the numbers change with it.',
      'Your password is asked for.',
    ],
    publishFirst: 'It can be published when results of the programme are.',
    sure: 'The judges know, and I publish it for good',
    does: 'Publish it for good',
    doing: 'Publishing …',
    since: (when: string) => `Everyone who sees the contest sees this since ${when}.`,
    chiefSees: 'This page shows no judge’s own numbers, and pilots by the numbers of their flights.',
  },

  judge: {
    what: 'one judge against the panel',
    heading: (name: string) => `${name} against the panel`,
    private: 'Only you, the director, the office and the jury see this.',
    openToAll: 'The director has published it: everyone who sees the contest sees it.',
    number: 'Number',
    own: 'Judge',
    middle: 'Middle of the panel',
    means: 'What it means',
    given: 'How often each grade was given',
    givenReads: 'Bars: this judge. Line: all seats together. In per cent of the grades that are numbers.',
    givenHead: ['Grade', 'Judge', 'Panel'],
    grade: 'grade',
    share: 'per cent',
    levels: 'Distance from the panel, by how good the figure was',
    levelsReads:
      'Dot: mean of the judge’s grades less the panel’s value, with the line as far as two thirds of them spread. Band: the panel’s own spread at that level. A dot above the line is generous there.',
    levelsHead: ['Panel’s value', 'Grades', 'Mean', 'Distance', 'Panel’s spread'],
    levelsAxis: 'the panel’s value',
    off: 'points off',
    codes: (given: number, upheld: number) => `${given} given, ${upheld} upheld`,
    names: {
      difference: 'Shift',
      deviation: 'Spread',
      pearson: 'Agreement (Pearson)',
      spearman: 'The same by ranks (Spearman)',
      kendall: 'The same by pairs (Kendall’s τ-b)',
      order_disagreement: 'Order disagreement',
      accuracy: 'Accuracy',
      distrusted: 'Little trusted',
      weight: 'Weight',
      hard_zeros: 'Hard zeros',
      perception_zeros: 'Perception zeros',
      not_seen: 'Not seen',
      own: 'Own affiliation',
    },
    says: {
      none: 'It cannot be computed from these flights.',
      difference: (v: number, shown: string) =>
        `For the same figure the grades are ${shown} points ${more(v)} than the others’ on average. It meets all pilots alike, and changes no place by itself.`,
      deviation: (shown: string) =>
        `The grades spread by ${shown} points. In a plain mean, who spreads more decides more; the consensus evens it out.`,
      pearson: 'How the totals go up and down with those of the others: 1 is in step, 0 is at random.',
      spearman: 'The same by the order of the totals alone.',
      kendall: 'Pairs of pilots in the others’ order less pairs the other way round, as a share of all.',
      order: (shown: string) =>
        `Of the points between all pairs of pilots, ${shown} lie between pairs that this judge has the other way round. 0 is the panel’s own order.`,
      accuracy: (shown: string) =>
        `The grades lie ${shown} times as far from the panel’s value as the panel’s do at that level. 1 is as exact as the panel.`,
      distrusted: 'Share of the grades that the consensus trusts by less than half.',
      weight: (seats: number, even: string) =>
        `Share of the panel’s result. ${plural(seats, 'seat', 'seats')} of one weight would have ${even} each.`,
      hard_zeros: 'Upheld: the zero counted, by the other seats or by the chief judge.',
      perception_zeros: 'Upheld: the zero counted for this seat.',
      not_seen: 'Upheld: the panel’s value took its place.',
      own: (pilots: number, p: string) =>
        `Points a grade for ${plural(pilots, 'pilot', 'pilots')} of the own affiliation more than for the others. Chance alone makes as great a difference in ${p} of 100 cases. A small number is a reason to look, not a proof.`,
      noOwn:
        'Fewer than two pilots’ grades to compare: no pilot of the own affiliation was graded, or none of another.',
    },
  },
};
