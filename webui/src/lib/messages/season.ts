/** The words of the pages about seasons, which load with them, with those of forms. */
import { en } from './en';
import { seasonWords } from './en-season';

export const m = { ...en, ...seasonWords };
