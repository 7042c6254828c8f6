/**
 * The words that every page may show. A translation is a file of this shape for
 * each of `en*.ts`; what depends on a number is a function, so that each
 * language counts its own way.
 */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

function list(parts: (string | number)[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

const seats = (numbers: number[]) => `${numbers.length === 1 ? 'seat' : 'seats'} ${list(numbers)}`;
const upper = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const Seats = (numbers: number[]) => upper(seats(numbers));
const verb = (numbers: number[], one: string, many: string) => (numbers.length === 1 ? one : many);
const counts = (numbers: number[]) => verb(numbers, 'counts', 'count');
const zeros = (kind: string, numbers: number[]) =>
  `The ${kind} ${verb(numbers, 'zero', 'zeros')} of ${seats(numbers)} ${verb(numbers, 'was', 'were')}`;

const months = 'January February March April May June July August September October November December'.split(
  ' ',
);

/** The month from 0. */
type Day = [day: number, month: number, year: number];

const dayIn = ([day, month, year]: Day) => `${day} ${months[month]} ${year}`;

/** A span of days, with what both have in common said once. */
function span(from: Day, to: Day): string {
  const [day, month, year] = from;
  if (year !== to[2]) return `${dayIn(from)} – ${dayIn(to)}`;
  if (month !== to[1]) return `${day} ${months[month]} – ${dayIn(to)}`;
  return day === to[0] ? dayIn(to) : `${day}–${dayIn(to)}`;
}

export const en = {
  times: {
    day: dayIn,
    days: span,
  },

  app: {
    name: 'Halfpoint',
    title: (page: string) => `${page} · Halfpoint`,
    skip: 'Go to the content',
    where: 'Where you are',
    contests: 'Contests',
  },

  who: {
    'sign-in': 'Sign in',
    'password-again': 'Your password again',
    signedIn: 'Signed in as',
    notNow: 'Not now',
  },

  theme: {
    label: 'Theme',
    device: 'As the device',
    light: 'Light',
    dark: 'Dark',
    sun: 'Sun',
  },

  safety:
    'Nothing here says whether a sequence can be flown safely: the contest’s rules, its officials, the flight manual and the authorities decide.',
  officeWays: 'For the office',
  toPaper: 'Key paper sheets',
  toPublish: 'Publish',
  toProtests: 'Protests',
  toSequence: 'Your sequence',
  toOrder: 'Running order and times',
  toCards: 'Cards to print',

  stands: {
    all: 'Published results',
    judges: 'Judges’ analysis',
    office: 'The contest’s office',
    state: { provisional: 'Provisional', official: 'Official' },
    line: (state: string, when: string, until: string) =>
      `${state} results were published ${when}${until && `; protests until ${until}`}`,
    toIt: (n: number) => `Publication ${n}`,
    paper: (when: string) => `As it stood on ${when}. These are not published results.`,
  },
  save: {
    csv: 'Save as CSV',
    teams: 'Save the teams as CSV',
    json: 'Save as JSON',
    print: 'Print',
  },

  wait: {
    reading: (what: string) => `Reading ${what} …`,
    slow: 'Still reading. The network here is slow; nothing is lost.',
  },

  failure: {
    away: 'The server cannot be reached.',
    awayDo: 'Check the network. This page tries again by itself, and at once when you ask it to.',
    kept: 'What you see below is what was read last.',
    missing: (what: string) => `There is no such ${what} here, or it is not open to everyone.`,
    missingDo: 'Check the address, or start from the list of contests.',
    refused: (status: number, detail: string) => `The server answered with a fault (${status}): ${detail}`,
    refusedDo: 'Try again; if it stays, tell the contest office this sentence.',
    signIn: 'Somebody must be signed in to see this.',
    signInDo: 'Sign in, and you come back here.',
    again: 'Try again',
    nowhere: 'There is nothing at this address.',
    toContests: 'All contests',
  },

  what: {
    contests: 'the contests',
    page: 'page',
    thePage: 'the page',
    contest: 'contest',
    theContest: 'the contest',
    programme: 'programme',
    category: 'category',
    flight: 'flight',
    standings: 'the standings',
    sheet: 'the sheet',
  },

  line: {
    connecting: 'connecting',
    live: 'live',
    lost: (since: string) => `not live since ${since}, trying again`,
    updated: (inNow: number, all: number) => `The standings changed. ${inNow} of ${all} flights are in.`,
  },

  contests: {
    heading: 'Contests',
    make: 'New contest',
    seasons: 'Seasons over several contests',
    emptyHeading: 'No contest is open yet',
    emptyDo: 'A contest appears here when its director opens it to everyone.',
    emptyOwner: 'Make the first one. It begins closed, and its director opens it to everyone.',
  },

  contest: {
    setup: 'Set-up',
    wall: 'Display for a wall',
    yours: 'Your page as a pilot',
    methods: 'How a score comes about',
    emptyHeading: 'No category yet',
    emptyDo: 'Categories and programmes appear here when the office has set them up.',
    overall: 'Overall',
    overallDetail: 'all programmes together',
    pilots: (n: number) => plural(n, 'pilot', 'pilots'),
    noProgrammes: 'No programme has been set up for this category yet.',
    notCounted: 'does not count',
    flightsIn: (inNow: number, all: number) =>
      all === 0
        ? 'no flights yet'
        : inNow === 0
          ? `none of ${plural(all, 'flight', 'flights')} in`
          : inNow === all
            ? `all ${plural(all, 'flight', 'flights')} in`
            : `${inNow} of ${plural(all, 'flight', 'flights')} in`,
  },

  kind: {
    known: 'known',
    free: 'free',
    unknown: 'unknown',
    freestyle: 'freestyle',
  },

  standings: {
    title: (category: string, programme: string) => `${category} · ${programme}`,
    flightsIn: (inNow: number, all: number) => `${inNow} of ${plural(all, 'flight', 'flights')} in`,
    rank: 'Rank',
    pilot: 'Pilot',
    score: 'Score',
    percent: '%',
    percentLong: 'per cent of the best possible',
    strip: 'Where the rank lies, 9 times in 10',
    range: (low: number, high: number) =>
      low === high ? `Rank ${low}, at least 9 times in 10.` : `Rank ${low} to ${high}, 9 times in 10.`,
    first: (percent: number) =>
      percent === 0
        ? 'Not first in 10,000 draws.'
        : percent === 100
          ? 'First in every draw.'
          : `First ${percent} times in 100.`,
    podium: (percent: number) =>
      percent === 0
        ? ''
        : percent === 100
          ? 'Always in the first three.'
          : `In the first three ${percent} times in 100.`,
    unranked: 'not ranked',
    noRank: '–',
    moved: (by: number) => (by > 0 ? `up ${by}` : `down ${-by}`),
    groups: {
      placed: '',
      waiting: 'In the air or waiting for grades',
      scheduled: 'Still to fly',
      out: 'Did not score',
    },
    state: {
      flying: 'in the air',
      incomplete: 'grades missing',
      unresolved: 'needs a decision',
      scheduled: 'to fly',
      'not-flown': 'did not fly',
      withdrawn: 'withdrawn',
      disqualified: 'disqualified',
    },
    number: (n: number) => `flight ${n}`,
    missing: (n: number, from: number[]) =>
      `${plural(n, 'grade', 'grades')} missing${from.length > 0 ? ` from ${seats(from)}` : ''}`,
    decision: (items: string[]) =>
      `${list(items)} ${items.length === 1 ? 'needs' : 'need'} a decision by the chief judge`,
    emptyHeading: 'No flights in this programme yet',
    emptyDo: 'Pilots appear here when the office has made the running order.',
    how: 'How these scores come about',
    cut: (n: number) => `The best ${n} go on to the next programme.`,
    notCounted: 'This programme does not count towards the overall standing.',
    explain:
      'The strip shows how sure a rank is: the dark bar is the rank by score, the band is where the rank lies in 9 of 10 draws of every score within its standard error.',
  },

  method: {
    by: (name: string, seats: number) => `${name} of ${plural(seats, 'seat', 'seats')}`,
    name: {
      consensus: 'consensus',
      mean: 'mean',
      'trimmed-mean': 'trimmed mean',
      normalised: 'normalised totals',
    },
    how: {
      consensus:
        'Each grade counts as far as it agrees with the panel: a seat that is strict, lenient or scattered is set right, a grade far from the others counts less. The sheet of a flight shows how far every grade was trusted.',
      mean: 'Each figure counts its K times the mean of the panel’s grades.',
      'trimmed-mean':
        'Each figure counts its K times the mean of the panel’s grades, with the lowest and the highest left out.',
      normalised:
        'Each seat’s totals are brought to a common level and spread; a total far from the others’ is left out; the score is the mean of the rest.',
    },
    fallback: (asked: string, used: string) =>
      `The ${asked} needs more seats or more complete flights than there are yet, so the ${used} is used until then.`,
  },

  category: {
    title: (category: string) => `${category} · overall`,
    total: 'Total',
    programmes: 'Programmes',
    how: 'How this standing comes about',
    notCounted: (programme: string) => `${programme} does not count.`,
    cut: (programme: string, n: number) =>
      `After ${programme} the best ${n} go on, and all who are tied with the last of them: a dashed line stands under them.`,
    underWay: 'A programme is under way: whoever has still to fly it has nothing from it in the total yet.',
    teams: 'Teams',
    team: 'Team',
    inTeam: (team: string) => `team ${team}`,
    by: {
      sum: 'The total adds up the scores of the programmes.',
      'sum-percent': 'The total adds up the percentages of the programmes, which stand under their names.',
      'weighted-percent':
        'The total weighs the percentages of the programmes, which stand under their names.',
    },
    emptyHeading: 'No pilot is entered yet',
    emptyDo: 'Pilots appear here when the office has entered them.',
  },

  sheet: {
    number: (n: number) => `flight\u00a0${n}`,
    rankLabel: 'Rank',
    of: (n: number) => `of ${n}`,
    score: 'Score',
    percent: 'Of the best possible',
    figure: 'Figure',
    figures: 'Figure by figure',
    numbered: (n: number) => `Figure ${n}`,
    fig: 'Fig',
    k: 'K',
    panel: 'Panel',
    points: 'Points',
    against: 'Against the field',
    legend: {
      heading: 'How to read a row',
      dot: 'a seat’s grade',
      faint: 'a grade little trusted: the emptier, the less it counts',
      hard: 'hard zero',
      perception: 'perception zero',
      value: 'the panel’s value',
      field: 'the middle half of the field',
    },
    wonWord: 'won',
    costWord: 'cost',
    won: (points: string) => `won ${points} points against the field`,
    cost: (points: string) => `cost ${points} points against the field`,
    swings: 'Against the field',
    gained: 'Won most',
    lost: 'Cost most',
    noField: 'No figure is set against the field here: that needs three pilots who flew the same sequence.',
    remark: (seat: number, text: string) => `Seat ${seat}: “${text}”`,
    picture: (grades: string, value: string) => `Grades ${grades}. Panel’s value ${value}.`,
    totals: 'How the score adds up',
    panelScore: 'Panel score',
    penalty: (kind: string, count: number) => (count === 1 ? kind : `${kind}, ${count} times`),
    noPenalties: 'No penalties',
    finalScore: 'Score',
    standardError: (value: string) => `Standard error of the panel score: ${value} points.`,
    numbers: 'The same in numbers',
    numbersDetail:
      'Grade of each seat; under it how far it was trusted, in per cent. A grade in brackets was not used as given.',
    numbersDetailPlain: 'Grade of each seat. A grade in brackets was not used as given.',
    toNumbers: 'Go to the same in numbers',
    seat: (n: number) => `Seat ${n}`,
    rawTotal: 'Total as given',
    usedTotal: 'Total as used',
    weight: 'Share of the panel',
    discarded: 'left out',
    emptyHeading: 'This flight has no score yet',
    emptyDo: (state: string) => `${upper(state)}. The sheet opens when the flight has its score.`,
    absent: (numbers: number[]) =>
      `${Seats(numbers)} ${verb(numbers, 'was', 'were')} absent and ${verb(numbers, 'takes', 'take')} the panel’s values.`,
    positioned: 'overall mark',
  },

  reason: {
    hardConfirmed: 'Hard zero confirmed: the figure counts 0 from every seat.',
    hardOverruled: (n: number[], value: string) =>
      `${zeros('hard', n)} overruled by the chief judge and ${counts(n)} as the panel’s ${value}.`,
    hardNotUpheld: (n: number[], value: string) =>
      `${zeros('hard', n)} not upheld and ${counts(n)} as the panel’s ${value}.`,
    zeroByMajority: (n: number[]) =>
      `The hard zero of ${seats(n)} counts 0: most of the panel gave a zero of some kind.`,
    perceptionConfirmed: (n: number[]) =>
      `${zeros('perception', n)} confirmed by the chief judge and ${counts(n)} 0.`,
    perceptionOverruled: (n: number[], value: string) =>
      `${zeros('perception', n)} overruled by the chief judge and ${counts(n)} as the panel’s ${value}.`,
    perceptionNotUpheld: (n: number[], value: string) =>
      `${zeros('perception', n)} not upheld and ${counts(n)} as the panel’s ${value}: fewer than half of the panel gave a zero.`,
    notSeen: (n: number[], value: string) =>
      `${Seats(n)} did not see it and ${verb(n, 'takes', 'take')} the panel’s ${value}.`,
    gradeSet: (value: string) => `The grade was set to ${value} by the chief judge.`,
    trimmed: (grades: { seat: number; grade: string }[]) =>
      `Left out as lowest and highest: ${list(grades.map(({ seat, grade }) => `seat ${seat}’s ${grade}`))}.`,
    outlier: (seat: number, grade: string, percent: number, value: string) =>
      percent === 0
        ? `Seat ${seat}’s ${grade} was not counted: the panel saw ${value}.`
        : `Seat ${seat}’s ${grade} was counted at ${percent} %: the panel saw ${value}.`,
  },

  grade: {
    HZ: 'hard zero',
    PZ: 'perception zero',
    A: 'not seen',
    '': 'none',
  },
};
