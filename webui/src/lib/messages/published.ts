/** The words of the pages about published results, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { publishedWords } from './en-published';

export const published = { en: publishedWords, de: () => import('./de-published') };
export const m = words(every, published);
