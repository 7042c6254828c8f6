/** How a board is cut into pages, and for how long each is shown. */

import type { Row } from '../results/table';
import type { Content, Part } from './boards';

/** A page of a board: so many rows of one of its parts. */
export interface Page {
  part: Part;
  rows: Row[];
  /** Counted from 1. */
  from: number;
  to: number;
}

/** Pages of at most `fit` rows, as even as can be: no page has one row alone beside a full one. */
export function pagesOf({ parts }: Content, fit: number): Page[] {
  return parts.flatMap((part) => {
    const pages = Math.ceil(part.rows.length / Math.max(1, fit));
    const most = Math.ceil(part.rows.length / pages);
    return Array.from({ length: pages }, (_, i) => {
      const rows = part.rows.slice(i * most, (i + 1) * most);
      return { part, rows, from: i * most + 1, to: i * most + rows.length };
    });
  });
}

/** Time to find the heading, and then a name and a number in each row: from across a room. */
export function readingMs(rows: number): number {
  return 4_000 + 1_200 * rows;
}

/** How many rows fit into a height. */
export function fitting(height: number, row: number): number {
  return Math.max(1, Math.floor(height / Math.max(1, row)));
}
