/** The words of the line's pages, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { lineWords } from './en-line';

export const line = { en: lineWords, de: () => import('./de-line') };
export const m = words(every, line);
