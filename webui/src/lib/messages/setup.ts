/** The words of the pages about a set-up, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { setupWords } from './en-setup';

export const m = words(every, { en: setupWords, de: () => import('./de-setup') });
