/** The words of the pages about accounts, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { accountWords } from './en-account';

export const m = words(every, { en: accountWords, de: () => import('./de-account') });
