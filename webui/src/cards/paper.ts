/** Sizes of paper and how much stands on a page, in millimetres. */

export const papers = ['a4', 'letter'] as const;
export type Paper = (typeof papers)[number];

/** The height of a page's content: the paper's less two margins of 11 mm and some play for the browser. */
const upright: Record<Paper, number> = { a4: 272, letter: 254 };

/** What every page spends above and below its rows; the styles of the pages keep to it. */
const frame = { head: 32, foot: 13 };
const columnHeads = 9;
const signatures = 22;

/** The lowest row of a grade sheet that still takes a pen, and the highest that is of use. */
const gradeRow = { least: 13, most: 21 };
const orderRow = 9.5;

/** Sizes of a caller's type, in points, the largest first. */
const callSizes = [22, 19, 16] as const;
export type CallSize = (typeof callSizes)[number];

/** A row of a caller's card at 1 point: how high a line is, how many letters surely stand in it; and what stands around. */
const call = { line: 0.475, letters: 46 * 16, around: 5.5, least: 14 };

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

/** The most figures of a sequence on a page: six by four are the last that are drawn 3 cm high. */
export const figuresOn = 24;

/** In how many columns `n` figures stand. */
export function columnsFor(n: number): number {
  if (n <= 8) return 4;
  return n <= 15 ? 5 : 6;
}

/** The parts of a list, as few as hold at most `most` each, and as equal as they can be. */
export function share<T>(all: T[], most: number): T[][] {
  const parts = Math.max(1, Math.ceil(all.length / most));
  const cut = (i: number) => Math.round((i * all.length) / parts);
  return Array.from({ length: parts }, (_, i) => all.slice(cut(i), cut(i + 1)));
}

/** Calls on pages: on one in the largest type that lets them stand there, else in the smallest on as few as hold them. */
export function shareCalls<T>(
  all: T[],
  words: (one: T) => string,
  paper: Paper,
): { size: CallSize; parts: T[][] } {
  const room = rows(paper, columnHeads);
  const size =
    callSizes.find((points) => sum(all.map((one) => callHeight(words(one), points))) <= room) ?? 16;
  const parts: T[][] = [[]];
  let used = 0;
  for (const one of all) {
    const height = callHeight(words(one), size);
    if (used > 0 && used + height > room) {
      parts.push([]);
      used = 0;
    }
    parts.at(-1)?.push(one);
    used += height;
  }
  return { size, parts };
}

function callHeight(words: string, points: number): number {
  const lines = Math.max(1, Math.ceil(words.length / (call.letters / points)));
  return Math.max(call.least, lines * call.line * points + call.around);
}

const sum = (all: number[]) => all.reduce((total, one) => total + one, 0);

/** Letter where it is the usual paper, A4 everywhere else. */
export function usualPaper(language: string): Paper {
  return /-(US|CA|MX|PH|CL|CO)\b/.test(language) ? 'letter' : 'a4';
}
