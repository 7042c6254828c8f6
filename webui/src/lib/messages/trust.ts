/** The words of the page about trust, with those of every page. */
import { m as every } from '.';
import { trustWords } from './en-trust';

export const m = { ...every, ...trustWords };
