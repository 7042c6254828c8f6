/** The words of the pages about seasons, which load with them, with those of forms. */
import { every } from '.';
import { words } from '../language';
import { seasonWords } from './en-season';

export const m = words(every, { en: seasonWords, de: () => import('./de-season') });
