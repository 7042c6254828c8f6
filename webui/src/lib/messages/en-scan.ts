/** The words of reading what tablets hand over as QR codes. */

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

export const scanWords = {
  scan: {
    title: 'Read a tablet’s codes',
    lead: 'For a tablet that has no network any more: on it, open “About this tablet” and show what waits as QR codes. Point this camera at them, in any order. What is read is stored at once; what is read twice counts once.',
    camera: 'Use this device’s camera',
    stop: 'Stop the camera',
    noCamera:
      'There is no camera that this page may use. Take pictures of the codes with another device and choose them below.',
    pictures: 'Or choose pictures of the codes',
    none: (name: string) =>
      `${name}: no code of a tablet can be read in it. Take it from nearer, straight on.`,
    read: (there: number, of: number) => `${there} of ${plural(of, 'code', 'codes')} read`,
    going: 'This one goes to the office …',
    stored: (n: number, before: number) =>
      before === 0
        ? `${plural(n, 'record is', 'records are')} stored.`
        : `${plural(n, 'record is', 'records are')} stored, ${before} of them were here before.`,
    refused: (n: number) => `${plural(n, 'record', 'records')} could not be taken; the tablet keeps them.`,
    broken: 'The codes do not belong together. Read them again from the first one.',
    again: 'Send it again',
    list: 'What was read',
    tablet: (n: number) => `Tablet ${n}`,
  },
};
