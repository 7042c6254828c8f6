/** The keys of the grades, as they lie: seven in a row, the best first. */

const halfPoints = Array.from({ length: 21 }, (_, i) => ((20 - i) / 2).toFixed(1));

export const rows: readonly (readonly string[])[] = [0, 7, 14].map((from) =>
  halfPoints.slice(from, from + 7),
);

/** Beside the rows, apart from the numbers. */
export const codes = ['HZ', 'PZ', 'A'] as const;

/** `9.5` in two, the half smaller: whole numbers have none. */
export function keyParts(grade: string): [whole: string, half: string] {
  const [whole = '', half = ''] = grade.split('.');
  return [whole, half === '5' ? '.5' : ''];
}

/** Two touches of one key so soon after one another are a glove that bounced, in milliseconds. */
const bounceMs = 350;

/** Tells a tap from the bounce of the one before it. */
export class Bounce {
  #last = { key: '', at: -Infinity };

  isNew(key: string, at: number): boolean {
    const last = this.#last;
    this.#last = { key, at };
    return key !== last.key || at - last.at >= bounceMs;
  }
}
