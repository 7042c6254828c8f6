/** The words of keying paper sheets, with those of every page. */
import { m as every } from '.';
import { keyingWords } from './en-keying';

export const m = { ...every, ...keyingWords };
