/** The texts that records may hold. */

export const maxItem = 40;

const numeric = /^(?:10\.0|\d\.[05])$/;
const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const digest = /^[0-9a-f]{64}$/;

/** "0.0" to "10.0" in halves. */
export const isNumber = (text: string): boolean => numeric.test(text);

/** A grade as records and signatures write it: a number, "HZ", "PZ" or "A". */
export const isGrade = (text: string): boolean => ['HZ', 'PZ', 'A'].includes(text) || isNumber(text);

/** A UUID of any version in lower case: ids are compared as text. */
export const isUuid = (text: string): boolean => uuid.test(text);

/** A SHA-256 in lower-case hexadecimal. */
export const isDigest = (text: string): boolean => digest.test(text);

/** The common way of an attempt: of two statuses in it the further one holds. */
export const course = ['called', 'flying', 'landed', 'closed'];

/** Statuses that end a flight without a score. */
export const isUnflown = (status: string): boolean =>
  ['not-flown', 'withdrawn', 'disqualified'].includes(status);

export const isStatus = (text: string): boolean =>
  course.includes(text) || text === 'interrupted' || isUnflown(text);

const families: Record<string, string> = {
  'hard-zero-confirmed': 'hard-zero',
  'hard-zero-overruled': 'hard-zero',
  'hard-zero-withdrawn': 'hard-zero',
  'perception-zero-confirmed': 'perception-zero',
  'perception-zero-overruled': 'perception-zero',
  'perception-zero-withdrawn': 'perception-zero',
  'grade-set': 'grade',
  'grade-withdrawn': 'grade',
};

/** The question that a ruling answers, "" for no ruling. */
export const rulingFamily = (ruling: string): string =>
  Object.hasOwn(families, ruling) ? (families[ruling] ?? '') : '';

/** A ruling that only takes another one back. */
export const isWithdrawal = (ruling: string): boolean =>
  rulingFamily(ruling) !== '' && ruling.endsWith('-withdrawn');
