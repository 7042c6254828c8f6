/** The words of the pages to print, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { cardsWords } from './en-cards';

export const m = words(every, { en: cardsWords, de: () => import('./de-cards') });
