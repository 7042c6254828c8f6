/** The words of the running order, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { orderWords } from './en-order';

export const m = words(every, { en: orderWords, de: () => import('./de-order') });
