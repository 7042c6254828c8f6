/** The words of keying paper sheets, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { keyingWords } from './en-keying';

export const m = words(every, { en: keyingWords, de: () => import('./de-keying') });
