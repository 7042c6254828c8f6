/** The words of the line: the judge's tablet, the assistant's, the chief judge's, and how a device is paired. */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const codes: Record<string, string> = { HZ: 'hard zero', PZ: 'perception zero', A: 'not seen' };

/** A grade as it is said. */
const grade = (text: string) => codes[text] ?? text;

export const lineWords = {
  line: {
    title: 'The line',
    what: 'this tablet’s pages',
    flight: (n: number) => `Flight ${n}`,
    attempt: (n: number) => `attempt ${n}`,
    seat: (n: number) => `seat ${n}`,
    nextFlights: (numbers: number[]) => `next ${numbers.join(', ')}`,
    where: (category: string, programme: string) => `${category} · ${programme}`,

    word: {
      saved: 'saved here',
      waiting: (n: number) => `${n} waiting`,
      all: 'all at the office',
      refused: (n: number) => `${plural(n, 'record', 'records')} not taken`,
    },
    details: {
      heading: 'This tablet',
      open: 'About this tablet',
      close: 'Close',
      ownAnalysis: 'Your own analysis',
      panelAnalysis: 'How the panel agrees',
      paired: (role: string, contest: string) => `Paired as ${role} at ${contest}.`,
      made: (n: number) =>
        `${plural(n, 'record was', 'records were')} made here. All are kept until the office releases the contest.`,
      waiting: (n: number) =>
        n === 0
          ? 'The office has all of them.'
          : `${plural(n, 'is', 'are')} waiting here and will be sent when the network is back. Nothing needs to be done.`,
      former: (n: number) =>
        `${plural(n, 'record', 'records')} made here under an earlier pairing ${n === 1 ? 'is' : 'are'} not at the office yet. What does not go by itself goes when the office pairs this tablet for that seat once more.`,
      refused: 'The office could not take these. They are kept here; tell the office.',
      kept: 'The browser keeps what is entered here until it is told to remove it.',
      notKept:
        'This browser may remove what is kept here when the device runs full. Add the page to the home screen, and send the sheets before that.',
      newer: 'A newer version of this page is on this tablet. Load it between two flights.',
      loadNewer: 'Load it now',
    },
    handOver: {
      open: 'Show what waits as QR codes',
      heading: 'Hand over without a network',
      why: (n: number) =>
        `${plural(n, 'record waits', 'records wait')} here. Let the office read these codes with any camera, in any order. What is read twice counts once, and this tablet keeps everything.`,
      code: (n: number, of: number) => `Code ${n} of ${of}`,
      before: 'Code before',
      next: 'Next code',
      turning: 'Turn by itself',
      part: (n: number, of: number) => `Part ${n} of ${of}: show the next part when this one is read.`,
      nextPart: 'Next part',
      close: 'Close the codes',
    },
    notice: {
      insecure:
        'This page is not secure (no HTTPS): the browser keeps no program here without a network, and a device cannot be paired. Ask the office for the secure address.',
      elsewhere:
        'This tablet’s page is open in another tab of this browser. Use it there, or close it there.',
      twin: 'Another tablet is paired for this seat.',
      turnedAway:
        'The office does not take this tablet any more: it was withdrawn, or its session is over. What you enter is kept here; ask the office to pair it again.',
      unkept: (why: string) =>
        `What you tapped could not be kept here (${why}). Nothing was recorded: tap it again, or write it on paper.`,
      reopened: (why: string) => `This sheet was opened again: ${why}`,
      conflict: (values: string) =>
        `There are two grades for this figure: ${values}. Tap the one that holds.`,
      differ: 'Two signatures of this sheet differ. The chief judge opens it again.',
      signed: 'This sheet is signed. The chief judge can open it again.',
      absent: 'This seat is absent for this flight.',
      interrupted: 'This flight is interrupted. What is entered stays; wait for the chief judge.',
      sequenceMissing:
        'This flight’s figures are not on this tablet yet. Grade by their numbers, or wait for the network.',
    },
    roles: {
      judge: 'judge',
      assistant: 'assistant',
      chief: 'chief judge',
      announcer: 'announcer',
    },
    reading: 'Reading what is kept on this tablet …',
    unpaired: 'This browser is not paired with a contest.',
    unpairedDo: 'Open the link that the office shows, or type its code.',
    noPlan: 'Nothing of the contest is on this tablet yet.',
    noPlanDo: 'It needs the network once, before the first flight.',

    grade,
    figure: (n: number) => `Figure ${n}`,
    k: (k: string) => `K ${k}`,
    keys: 'Grades',
    strip: 'All figures',
    stripItem: (n: number, what: string, given: string) =>
      `${n}, ${what}: ${given === '' ? 'no grade yet' : grade(given)}`,
    nothingSaid: 'Tap a grade: it is kept at once.',
    tookBack: 'taken back',
    takeBack: 'Take back',
    offered: (mark: string, letters: number) =>
      `${plural(letters, 'letter', 'letters')} for the position: ${mark} is offered.`,

    remark: 'Remark',
    remarkFor: (item: string) => `Remark for ${item}`,
    remarkDone: 'Done',
    remarkWords: [
      'early',
      'late',
      'flat',
      'not vertical',
      'over-rotated',
      'under-rotated',
      'off heading',
      'wings low',
      'barrelled',
      'radius differs',
      'line short before',
      'line short after',
      'no line between',
      'drifted',
      'shallow',
      'steep',
    ],
    remarkOwn: 'In your own words',
    places: { left: 'left', right: 'right', near: 'near', far: 'far' },
    placeSaid: (place: string, times: number) => (times === 2 ? `much too far ${place}` : place),

    whole: 'Whole sheet',
    wholeOf: (n: number) => `Sheet of flight ${n}`,
    missing: (numbers: number[]) =>
      numbers.length === 1
        ? `Figure ${numbers[0]} has no grade.`
        : `${numbers.length} figures have no grade.`,
    ready: 'Every figure has a grade. Tap one to change it.',
    sign: (n: number) => `Sign flight ${n}`,
    back: 'Back to the figures',

    between: {
      signed: (n: number) => `Flight ${n} is signed.`,
      heading: 'Which flight?',
      called: 'The next flight appears here when the chief judge calls it.',
      radio: 'No network: tap the number that you hear on the radio.',
      also: 'Or tap the number that you hear on the radio.',
      none: 'No flight is left for this seat.',
      others: (programme: string) => `Other flights of ${programme}`,
    },
    pair: {
      heading: 'Pair this tablet',
      code: 'Code from the office',
      codeHint: 'Eight characters, as ACDE-3467',
      look: 'Look it up',
      looking: 'Asking the office …',
      offer: (role: string, contest: string) =>
        `${role.charAt(0).toUpperCase()}${role.slice(1)} at ${contest}`,
      seat: (judge: string) => `The seat of ${judge}`,
      take: 'Pair this tablet',
      taking: 'Pairing …',
      bad: 'This code or link is not good: it may be mistyped, used already, or older than 15 minutes. Ask the office for a new one.',
      slow: (detail: string) => `Too many wrong codes came from here. ${detail}`,
      away: 'The server cannot be reached. Nothing is lost: try again when the network is back.',
      before: (role: string) =>
        `This browser is paired as ${role} now. Pairing it again takes its place; what waits here is still sent for the former seat.`,
    },
    safety:
      'Nothing here says whether a sequence can be flown safely: rules, officials and the flight manual decide.',
  },
};
