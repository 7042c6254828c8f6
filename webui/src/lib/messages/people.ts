/** The words of a pilot's page and of what belongs to it, with those of published results. */
import { every } from '.';
import { words } from '../language';
import { peopleWords } from './en-people';
import { published } from './published';

export const m = words(every, published, { en: peopleWords, de: () => import('./de-people') });
