/** The words of the pages about accounts, with those of every page. */
import { m as every } from '.';
import { accountWords } from './en-account';

export const m = { ...every, ...accountWords };
