/** The words of the pages about published results, with those of every page. */
import { m as every } from '.';
import { publishedWords } from './en-published';

export const m = { ...every, ...publishedWords };
