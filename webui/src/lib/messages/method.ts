/** The words of the pages that tell how a score comes about, with those of published results. */
import { every } from '.';
import { words } from '../language';
import { methodWords } from './en-method';
import { published } from './published';

export const m = words(every, published, { en: methodWords, de: () => import('./de-method') });
