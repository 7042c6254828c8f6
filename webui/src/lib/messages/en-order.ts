/** The words of the running order. */

const times = (n: number) => (n === 1 ? 'once' : n === 2 ? 'twice' : `${n} times`);

export const orderWords = {
  order: {
    heading: 'Running order',
    what: 'the running order',
    none: 'There is no running order yet',
    noneDo: 'The office draws it.',
    noneOffice:
      'Draw it below, or put the pilots in it one by one. With it come the flights, and a place for each pilot’s own sequence.',
    noneEntered: 'Nobody is entered in this category yet: enter the pilots first.',
    place: 'Place',
    flight: 'Flight',
    about: (time: string) => `about ${time}`,
    unknown: 'When a flight can be expected is said once three flights have begun.',
    pace: (minutes: string) =>
      `Times are expected ones, at ${minutes} minutes from flight to flight so far. They change with the pace.`,
    state: {
      waiting: '',
      called: 'called',
      flying: 'flying',
      interrupted: 'interrupted',
      flown: 'flown',
      'not-flown': 'not flown',
      withdrawn: 'withdrawn',
      disqualified: 'disqualified',
    },

    drawn: {
      lot: 'Drawn by lot.',
      standing: (of: string, reversed: boolean) =>
        `By the standing of ${of}, ${reversed ? 'best last' : 'best first'}.`,
      blocks: (of: string, size: number, reversed: boolean) =>
        `By lot in blocks of ${size} of the standing of ${of}, ${reversed ? 'best last' : 'best first'}.`,
      best: (n: number) => `Only the best ${n} fly.`,
      overall: 'the category',
      programme: 'a programme before',
      seed: 'Seed',
      times: (n: number) => `It was drawn ${times(n)}; the last time counts.`,
      moved: (n: number) => `Since then it was changed by hand ${times(n)}.`,
      byHand: 'Made by hand.',
      bundle: 'As it came with the contest.',
      repeat: 'How to repeat the lot',
      repeatHow:
        'Each pilot’s ticket is the SHA-256 of the seed, a line feed and the pilot’s id, in hexadecimal. The lowest ticket flies first. In blocks, each block is sorted so by itself. On most computers:',
      ids: 'The pilots’ ids, in running order:',
    },

    move: {
      why: 'Flights that were called keep their places. Numbers stay with their pilots.',
      up: (name: string) => `Move ${name} up`,
      down: (name: string) => `Move ${name} down`,
      to: (name: string) => `Place of ${name}`,
      out: 'Take out',
      outOf: (name: string) => `Take ${name} out`,
      late: 'Not in the order',
      add: 'Add at the end',
      addWho: (name: string) => `Add ${name} at the end`,
      isAt: (name: string, place: number) => `${name} is now at place ${place}.`,
      open: 'What you see is not kept yet.',
      stale: 'Somebody else changed the order meanwhile. Discard yours to see it.',
      keep: 'Keep this order',
      keeping: 'Keeping it …',
      discard: 'Discard',
      kept: 'The order is kept.',
      number: 'new',
    },

    draw: {
      heading: 'Draw the order',
      again: 'Draw again',
      do: 'Draw',
      doing: 'Drawing …',
      done: 'It is drawn.',
      blocked: 'Keep or discard what you changed by hand first.',
      how: 'How',
      ways: {
        lot: 'By lot',
        best: 'By standing, best first',
        last: 'By standing, best last',
        blocks: 'By lot in blocks of the standing, best first',
        'blocks-last': 'By lot in blocks of the standing, best last',
      },
      of: 'Whose standing',
      overall: 'The category as a whole',
      block: 'Pilots in a block',
      bestOnly: 'Only so many of the best',
      bestOnlyWhy: 'After a cut. Empty for all.',
      seed: 'Seed',
      seedWhy: 'Empty: one is made that nobody knew. Give one that was drawn in public, or to repeat a lot.',
      counted: (n: number) => `It was drawn ${times(n)} already. Every draw is recorded for good.`,
    },
  },
};
