/** The words of the running order, with those of every page. */
import { m as every } from '.';
import { orderWords } from './en-order';

export const m = { ...every, ...orderWords };
