/**
 * The words of the language shown. What every page may say is here; the words
 * of a part that loads later load with it: `./figure`, `./cards`.
 */
import { words } from '../language';
import { en } from './en';

export const every = { en, de: () => import('./de') };
export const m = words(every);
