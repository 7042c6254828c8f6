/** The words of the pages about seasons, with those of every page. */
import { m as every } from '.';
import { seasonWords } from './en-season';

export const m = { ...every, ...seasonWords };
