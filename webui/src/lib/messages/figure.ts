/** The words of the pages about figures, with those of every page. */
import { m as every } from '.';
import { figureWords } from './en-figure';

export const m = { ...every, ...figureWords };
