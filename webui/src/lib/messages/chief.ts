/** The words of the officials' and the assistant's pages on the line, with those of the line. */
import { every } from '.';
import { words } from '../language';
import { chiefWords } from './en-chief';
import { line } from './line';

export const m = words(every, line, { en: chiefWords, de: () => import('./de-chief') });
