/** The words of publishing and of the office's first page, with those of published results. */
import { every } from '.';
import { words } from '../language';
import { publishWords } from './en-publish';
import { published } from './published';

export const m = words(every, published, { en: publishWords, de: () => import('./de-publish') });
