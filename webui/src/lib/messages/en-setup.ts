/** The words of making a contest and of its set-up. */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

/** What a choice is called, and what it comes to. */
type NameAndWhy = readonly [name: string, why: string];
type Combining = 'sum' | 'sum-percent' | 'weighted-percent';
type Option = 'trim' | 'discard' | 'style' | 'seat_weights' | 'outlier' | 'lean' | 'group_min';

const kinds: Record<'known' | 'free' | 'unknown' | 'freestyle', NameAndWhy> = {
  known: ['Known', 'All fly the same sequence, known long before.'],
  free: ['Free', 'Each pilot flies the own sequence.'],
  unknown: ['Unknown', 'All fly the same, shown when it is released.'],
  freestyle: ['Freestyle', 'Each pilot flies the own, marked as a whole.'],
};

const methods = {
  consensus: {
    name: 'Consensus',
    why: 'Asks of every grade how far to trust it: a judge’s level and spread are taken off, exact seats weigh more, blunders and leaning count less. Needs four seats and five complete flights.',
  },
  mean: {
    name: 'Mean',
    why: 'Each line counts K times the mean of its grades. Nothing is left out, and it works with any panel.',
  },
  'trimmed-mean': {
    name: 'Trimmed mean',
    why: 'As the mean, but without the lowest and the highest grades of each line, where at least three remain. Needs five seats, with two left out at each end seven.',
  },
  normalised: {
    name: 'Normalised',
    why: 'Moves and stretches each seat’s totals to the panel’s mean and spread, and discards totals far from the others. Needs four seats and five complete flights; discarding begins with five seats.',
  },
};

/** Each option of a method: its name, and what it does. */
const options: Record<Option, NameAndWhy> = {
  trim: [
    'Grades left out at each end',
    'So many lowest and so many highest grades of each line do not count, where at least three remain.',
  ],
  discard: [
    'Discard beyond',
    'A flight’s total is discarded where it lies more than so many standard deviations from the flight’s mean. 1.645 is usual; higher discards less.',
  ],
  style: [
    'Match the seats’ spreads first',
    'A judge who uses little of the scale is stretched, one who uses much is compressed, before grades are compared.',
  ],
  seat_weights: ['How seats weigh', 'Whether a seat that agrees better with what the panel saw weighs more.'],
  outlier: [
    'No trust beyond',
    'A grade so many of the seat’s own standard deviations from what the panel saw has no trust at all; nearer ones lose trust gradually. 6 is usual.',
  ],
  lean: [
    'Leaning beyond',
    'A seat whose grades for one pilot lie on one side, further than so many standard deviations of what seats usually do, is trusted less for that pilot. 2 is usual.',
  ],
  group_min: [
    'Least figures of a group',
    'In a free, figures of one class are compared with each other in groups of at least so many. 11 is usual; a known or unknown does not use it.',
  ],
};

const byChoice: Record<Combining, NameAndWhy> = {
  sum: ['Points', 'The published scores are added.'],
  'sum-percent': ['Percent', 'The published percentages are added, so that every programme weighs the same.'],
  'weighted-percent': ['Weighted percent', 'Percentages times the weights below, which add up to 1.'],
};

export const setupWords = {
  setup: {
    what: 'the set-up',
    title: 'Set-up',
    pages: {
      contest: 'Contest',
      categories: 'Categories',
      programmes: 'Programmes',
      pilots: 'Pilots',
      judges: 'Judges',
      panels: 'Panels',
      penalties: 'Penalties',
    },
    nav: 'Pages of the set-up',
    notSaved: (n: number) => `${n} not saved`,

    save: 'Save',
    saving: 'Saving …',
    discard: 'Discard',
    state: {
      none: 'Everything is saved.',
      unsaved: (n: number) => `${plural(n, 'row', 'rows')} not saved.`,
      saved: 'Saved.',
      wrong: (n: number) => `Nothing is saved yet: ${plural(n, 'thing is', 'things are')} wrong.`,
      choose: (n: number) =>
        `Nothing is overwritten: somebody else changed ${n === 1 ? 'a row' : `${n} rows`} that you changed. Choose in the row, then save.`,
      merged:
        'Somebody else changed something here meanwhile; it is taken over. Look at it, then save again.',
      away: 'The server cannot be reached, so nothing is saved. What you typed is kept on this device: save again when the network is back.',
      awayNot:
        'The server cannot be reached, so nothing is saved. Leave this page open: save again when the network is back.',
      refused: (detail: string) => `The server would not save it: ${detail}`,
    },
    toFirst: 'Go to the first',
    found: 'What was typed on this device before and not saved is in the fields again.',
    notKept: 'This browser keeps nothing: what is typed here is lost with the page.',
    number: 'This is not a number.',

    theirs: (text: string) => `Somebody else made it ${text} meanwhile.`,
    mine: (text: string) => `Yours is ${text}.`,
    takeTheirs: (text: string) => `Take ${text}`,
    keepMine: 'Keep yours',
    nothing: 'empty',
    quoted: (text: string) => `“${text}”`,
    gone: 'Somebody else took this row out meanwhile.',
    putBack: 'Put it back',
    letGo: 'Let it go',
    removed: (name: string) => `${name} is taken out when you save.`,
    keep: 'Keep it',
    remove: 'Take out',
    up: 'Move up',
    down: 'Move down',
    of: (what: string, name: string) => `${what}: ${name || 'no name yet'}`,
    unnamed: 'No name yet',
    yes: 'yes',
    no: 'no',
    filter: 'Show only',
    filterWhy: 'part of a name, code or club',
    shows: (n: number, all: number) => (n === all ? `${all} in all` : `${n} of ${all}`),

    make: {
      title: 'New contest',
      lead: 'It begins closed: only its officials see it. Everything can be changed later.',
      does: 'Make the contest',
      doing: 'Making it …',
      name: 'Name',
      place: 'Place',
      starts: 'First day',
      ends: 'Last day',
      from: 'Set it up as',
      empty: 'nothing yet: an empty contest',
      fromWhy:
        'Penalties, categories with their limits, programmes with their methods and the table of catalogue numbers come along. Nothing that was flown does.',
      pilots: 'with its pilots and their entries',
      officials: 'with its judges and panels',
      reading: 'the contests',
    },

    contest: {
      opened: 'Who may see it besides its officials',
      openedChoice: {
        closed: ['Nobody', 'while it is being set up'],
        published: [
          'Everyone, what is published',
          'and the running orders; live results stay with the officials',
        ],
        live: ['Everyone, live', 'results as grades come in'],
      },
      state: 'What is set up',
      copy: 'Make another contest like this one',
      categories: (n: number) => plural(n, 'category', 'categories'),
      programmes: (n: number, without: number) =>
        `${plural(n, 'programme', 'programmes')}${without ? `, ${without} without a panel` : ''}`,
      pilots: (n: number, without: number) =>
        `${plural(n, 'pilot', 'pilots')}${without ? `, ${without} in no category` : ''}`,
      judges: (n: number) => plural(n, 'judge', 'judges'),
      penalties: (n: number) => plural(n, 'kind of penalty', 'kinds of penalties'),
      sequences: 'Sequences, limits and catalogue numbers: the office’s page',
    },

    code: 'Code',
    codeWhy: 'Names it in files; each has its own.',
    name: 'Name',

    categories: {
      lead: 'A category is flown for one standing. Say how its programmes add up, who goes on, and how teams count.',
      add: 'Add a category',
      emptyHeading: 'No category yet',
      emptyDo: 'Add the first one, for example Sportsman or Unlimited.',
      by: 'How programmes add up',
      byChoice,
      teamBest: 'Members counted for a team',
      teamBestWhy: 'The best so many ranked members make a team’s total; 0 for no teams.',
      programmes: 'Its programmes',
      noProgrammes: 'No programme yet.',
      toProgrammes: 'Add programmes',
      cut: 'Go on after it',
      cutWhy: '0 for all. So many go on by their total so far, and all who are tied with the last of them.',
      weight: 'Weight',
      weights: (sum: string) => `The weights add up to ${sum}; they must add up to 1.`,
      weightsGood: 'The weights add up to 1.',
      tie: 'Breaks ties',
      tieNone: 'no',
      tiePlace: (n: number) => `${n}.`,
      tieWhy:
        'Equal totals are told apart by the scores of these programmes, in this order; then they stay ties.',
      limits: 'Limits of its free sequences',
      limitsLater: 'Its limits can be set once it is saved.',
    },

    programmes: {
      lead: 'A programme is one round of a category. Its method stands from the first flight called; a change after that needs a reason, which is published.',
      add: 'Add a programme',
      none: 'No programme yet.',
      emptyHeading: 'No category yet',
      emptyDo: 'Programmes belong to a category: add one first.',
      toCategories: 'To the categories',
      kind: 'Kind',
      kinds,
      cut: 'Go on after it',
      cutWhy: 'How many pilots go on; 0 for all.',
      method: 'Method',
      methods,
      options,
      seatWeights: { measured: 'as measured: exact seats weigh more', equal: 'all the same' },
      more: 'Parameters and zeros',
      hardZero: 'A hard zero without a ruling is confirmed',
      hardZeroWhy:
        'A hard zero says that the figure flown is not the figure drawn. One judge alone never confirms one; the chief judge’s ruling goes before.',
      hardZeroChoice: {
        'more-than-half': 'by at least two, more than half of the panel',
        'half-or-more': 'by at least two, half of the panel or more',
      },
      perception: 'A perception zero',
      perceptionWhy: 'It says that what was required (a flick, a spin, a slide) was not seen to happen.',
      perceptionChoice: {
        majority: 'counts where half or more gave a zero of some kind, else the panel’s value is taken',
        'as-graded': 'always counts as graded',
      },
      usual: (text: string) => `usual: ${text}`,
      reason: 'Why the method changes',
      reasonWhy: 'Needed once a flight was called, and published with the results; else it may stay empty.',
      counts: 'Whether a programme counts is decided by the director with a reason, not here.',
    },

    pilots: {
      lead: 'Everyone who flies, and the categories that they are entered in.',
      add: 'Add a pilot',
      emptyHeading: 'No pilot yet',
      emptyDo: 'Add pilots one by one, or all of them by a table below.',
      affiliation: 'Club or country',
      aircraft: 'Aircraft',
      note: 'A line for the announcer',
      entries: (name: string) => `Categories of ${name}`,
      enter: (category: string) => `Enter in ${category}`,
      entered: 'Entered in',
      noCategories: 'There is no category yet to enter anybody in.',
      ranked: 'ranked',
      rankedWhy: 'Not ranked is hors concours: scored, without a rank.',
      team: 'Team',
    },

    judges: {
      lead: 'Judges, and the others who run the contest. Judges’ affiliations tell the director who grades a pilot of the own club or country.',
      add: 'Add a judge',
      emptyHeading: 'No judge yet',
      emptyDo: 'Add judges one by one, or all of them by a table below.',
      duty: 'Duty',
      duties: {
        judge: 'Judge',
        chief: 'Chief judge',
        assistant: 'Assistant',
        announcer: 'Announcer',
        office: 'Office',
        director: 'Contest director',
        jury: 'Jury',
      },
      affiliation: 'Club or country',
    },

    panels: {
      lead: 'Who sits where. Seat numbers are what sheets, tablets and results show.',
      none: 'No programme yet: a panel belongs to one.',
      noneDo: 'Add programmes first.',
      noJudges: 'No judge yet',
      noJudgesDo: 'A panel is made of judges: add them first.',
      toJudges: 'To the judges',
      seat: (n: number) => `Seat ${n}`,
      choose: 'choose a judge',
      add: 'Add a seat',
      empty: 'No seat yet.',
      copy: 'Take the panel of',
      take: 'Take it',
      own: 'Judges who would grade pilots of their own affiliation:',
      ownOf: (judge: string, club: string, pilots: string[]) => `${judge} (${club}): ${pilots.join(', ')}`,
      all: 'Every judge sits on this panel.',
    },

    penalties: {
      lead: 'What the officials are offered when they give a penalty. Points are for each occurrence, and are taken off the panel score.',
      add: 'Add a penalty',
      emptyHeading: 'No penalty yet',
      emptyDo: 'Add the kinds that your rules know, for example flying below the floor.',
      kind: 'Kind',
      points: 'Points',
      repeats: 'can occur more than once in a flight',
      disqualifies: 'disqualifies',
    },

    table: {
      heading: 'By a table',
      why: {
        pilots:
          'A CSV file whose first row names the columns: name, and where you have them code, affiliation, aircraft, note (a line for the announcer), category (its code or name), ranked (yes or no) and team. A pilot in two categories has two rows. Whoever is not in it stays as they are.',
        officials:
          'A CSV file whose first row names the columns: name, and where you have them code, duty (judge where left out) and affiliation. Whoever is not in it stays as they are.',
      },
      kinds: 'Commas, semicolons or tabs, UTF-8.',
      file: 'Choose a file',
      paste: 'or paste the table here',
      read: 'Read it',
      reading: 'Reading it …',
      wrong: (n: number) => `Nothing was taken: ${plural(n, 'place is', 'places are')} wrong.`,
      took: (rows: number, added: number, changed: number, entries: number) =>
        `${plural(rows, 'row', 'rows')} read: ${plural(added, 'person', 'people')} new, ${changed} changed${entries > 0 ? `, and ${plural(entries, 'entry', 'entries')} new or changed` : ''}. Look at them above, then save.`,
      same: (rows: number) => `${plural(rows, 'row', 'rows')} read: everything is there already.`,
      away: 'The server cannot be reached. The table is still here: try again when the network is back.',
      failed: (detail: string) => `It could not be read: ${detail}`,
      download: 'Download as CSV',
    },
  },
};
