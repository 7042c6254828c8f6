/** The words of the display for a wall. */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

export const wallWords = {
  wall: {
    title: (contest: string) => `${contest} · display`,
    link: 'Display for a wall',
    teams: 'Teams',
    empty: 'Nothing to show yet',
    emptyDo: 'Standings appear here by themselves as soon as there are any.',
    rows: (from: number, to: number, of: number) =>
      from === 1 && to === of ? plural(of, 'place', 'places') : `places ${from} to ${to} of ${of}`,
    board: (n: number, of: number) => `table ${n} of ${of}`,
    flying: (names: string) => `In the air: ${names}`,
    waiting: (n: number) => `${plural(n, 'flight waits', 'flights wait')} for grades`,
    toFly: (n: number) => `${n} still to fly`,
    published: (state: string, when: string) => `${state}, published ${when}`,
    lost: (since: string) =>
      `No connection since ${since}. This is what stood then; it goes on by itself when the network is back.`,
    controls: 'The display',
    back: 'Page before',
    on: 'Next page',
    pause: 'Pause',
    go: 'Go on',
    paused: 'paused',
    full: 'Full screen',
    notFull: 'Leave full screen',
    leave: 'Leave the display',
    keys: 'Keys: arrows step, space pauses, F fills the screen.',
  },
};
