/** The words of the line's pages, with those of every page. */
import { m as every } from '.';
import { lineWords } from './en-line';

export const m = { ...every, ...lineWords };
