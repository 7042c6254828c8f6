/** The words of the pages to print, with those of every page. */
import { m as every } from '.';
import { cardsWords } from './en-cards';

export const m = { ...every, ...cardsWords };
