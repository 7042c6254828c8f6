/**
 * The words of the language shown. What every page may say is here; the words
 * of a part that loads later load with it: `./figure`, `./cards`.
 */
import { en } from './en';

export const m = en;
