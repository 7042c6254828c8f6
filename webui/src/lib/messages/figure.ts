/** The words of the pages about figures, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { figureWords } from './en-figure';

export const m = words(every, { en: figureWords, de: () => import('./de-figure') });
