/** The words of forms: what is wrong with a field, and why the service would not do it. */

export const refusalWords = {
  field: {
    show: 'Show',
    hide: 'Hide',
    is: (field: string, what: string) => `${field} ${what}.`,
  },

  failed: {
    away: 'The server cannot be reached. What you typed is still here: try again when the network is back.',
    conflict: (why: string) => `It was not done: ${why}.`,
    other: (status: number, detail: string) => `The server answered with a fault (${status}): ${detail}`,
    'wrong-sign-in': 'This e-mail address and this password do not go together.',
    'wrong-code': 'This is not the code that counts now. Each is good once: wait for the next one.',
    'too-many': (seconds: string) => `That was tried too often. Try again in ${seconds} seconds.`,
    insecure:
      'Nobody signs in over a connection that others can read. Open this page with https, or on the machine it runs on.',
    link: 'This link is not good, or not good any more. Each is good once, and for a time: ask for another one.',
  },
};
