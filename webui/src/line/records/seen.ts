/** What a signature covers and stands for, and what a closing has seen. */

import type { Entry } from './digest';
import { cellOf } from './pool';
import { compareText, type LineRecord } from './record';
import type { Sheet } from './state';

interface ToSign {
  covers: string[];
  entries: Entry[];
  /** False while a cell is empty or in conflict. */
  ready: boolean;
}

/** What a signature of the sheet as it stands covers and stands for. */
export function toSign({ cells }: Sheet): ToSign {
  return {
    covers: cells.flatMap((cell) => cell.heads),
    entries: cells.map(({ grade, remark }) => ({ grade, remark })),
    ready: cells.length > 0 && cells.every((cell) => cell.grade !== ''),
  };
}

/** The ids of all records of a flight's attempt, whatever they are worth: what a closing covers. */
export function seen(records: readonly LineRecord[], flight: string, attempt: number): string[] {
  const ids = records
    .filter((record) => record.flight === flight && cellOf(record).attempt === attempt)
    .map((record) => record.id);
  return [...new Set(ids)].sort(compareText);
}
