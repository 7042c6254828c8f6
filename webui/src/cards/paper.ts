/** Sizes of paper and how much stands on a page, in millimetres. */

export const papers = ['a4', 'letter'] as const;
export type Paper = (typeof papers)[number];

/** The height of a page's content: the paper's less two margins of 11 mm and some play for the browser. */
const upright: Record<Paper, number> = { a4: 272, letter: 254 };

/** What every page spends above and below its rows; the styles of the pages keep to it. */
const frame = { head: 30, foot: 11 };
const columnHeads = 9;
const signatures = 18;

/** The lowest row of a grade sheet that still takes a pen, and the highest that is of use. */
const gradeRow = { least: 11.5, most: 21 };
const orderRow = 9.5;

/** Sizes of a caller's type, in points, the largest first. */
const callSizes = [28, 25, 22, 19, 16] as const;
export type CallSize = (typeof callSizes)[number];
const smallest: CallSize = 16;

/** A row of a caller's card at 1 point: its least height, how high a line is, how many letters surely stand in it; and what stands around. */
const call = { least: 0.65, line: 0.43, letters: 58 * 16, around: 3.3 };

const rows = (paper: Paper, more = 0) => upright[paper] - frame.head - frame.foot - more;

/** How many flights stand on a page of the running order. */
export function ordersOn(paper: Paper): number {
  return Math.floor(rows(paper, columnHeads) / orderRow);
}

/** How many items stand on a page of a grade sheet. */
export function gradesOn(paper: Paper): number {
  return Math.floor(rows(paper, columnHeads + signatures) / gradeRow.least);
}

/** The height of each of `n` rows of a grade sheet. */
export function gradeHeight(paper: Paper, n: number): number {
  const height = rows(paper, columnHeads + signatures) / Math.max(1, n);
  return Math.min(gradeRow.most, Math.floor(10 * height) / 10);
}

/** The most figures of a sequence on a page: six by three are the last that are drawn 3 cm high. */
export const figuresOn = 18;

/** In how many columns `n` figures stand. */
export function columnsFor(n: number): number {
  if (n <= 8 || n === 11 || n === 12) return 4;
  return n <= 15 ? 5 : 6;
}

/** The parts of a list, as few as hold at most `most` each, and as equal as they can be. */
export function share<T>(all: T[], most: number): T[][] {
  const parts = Math.max(1, Math.ceil(all.length / most));
  const cut = (i: number) => Math.round((i * all.length) / parts);
  return Array.from({ length: parts }, (_, i) => all.slice(cut(i), cut(i + 1)));
}

/** Calls on as few pages as hold them, in the largest type that lets them stand there. */
export function shareCalls<T>(
  all: T[],
  words: (one: T) => string,
  paper: Paper,
): { size: CallSize; parts: T[][] } {
  const room = rows(paper, columnHeads);
  const fit = (some: T[], points: number) => sum(some.map((one) => callHeight(words(one), points))) <= room;
  let parts = [all];
  for (let most = all.length - 1; most > 0 && !parts.every((some) => fit(some, smallest)); most--)
    parts = share(all, most);
  const size = callSizes.find((points) => parts.every((some) => fit(some, points))) ?? smallest;
  return { size, parts };
}

function callHeight(words: string, points: number): number {
  const lines = Math.max(1, Math.ceil(words.length / (call.letters / points)));
  return Math.max(call.least * points, lines * call.line * points + call.around);
}

const sum = (all: number[]) => all.reduce((total, one) => total + one, 0);

/** Letter where it is the usual paper, A4 everywhere else. */
export function usualPaper(language: string): Paper {
  return /-(US|CA|MX|PH|CL|CO)\b/.test(language) ? 'letter' : 'a4';
}
