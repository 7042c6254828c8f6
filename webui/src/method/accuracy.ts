/** The tables of the accuracy study, out of the document that it is written to. */

import text from '../../../docs/accuracy.md?raw';

export interface Table {
  /** The line before it. */
  title: string;
  heads: string[];
  rows: string[][];
}

/** The tables of numbers: those that begin with a column for the scenario and go on with methods. */
export function accuracyTables(of = text): Table[] {
  const lines = of.split('\n');
  return lines.flatMap((line, i) => {
    if (!line.startsWith('| scenario | mean ')) return [];
    const end = lines.findIndex((other, j) => j > i && !other.startsWith('|'));
    const rows = lines.slice(i + 2, end < 0 ? undefined : end).map(cells);
    return [{ title: (lines[i - 2] ?? '').replace(/:$/, ''), heads: cells(line), rows }];
  });
}

const cells = (line: string) =>
  line
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim());
