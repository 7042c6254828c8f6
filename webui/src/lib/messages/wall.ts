/** The words of the display for a wall, with those of published results. */
import { every } from '.';
import { words } from '../language';
import { wallWords } from './en-wall';
import { published } from './published';

export const m = words(every, published, { en: wallWords, de: () => import('./de-wall') });
