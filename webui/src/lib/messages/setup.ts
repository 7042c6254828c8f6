/** The words of the pages about a set-up, with those of every page. */
import { m as every } from '.';
import { setupWords } from './en-setup';

export const m = { ...every, ...setupWords };
