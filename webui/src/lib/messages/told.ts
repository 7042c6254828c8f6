/** The words of what an announcer is to tell of a pilot, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { toldWords } from './en-told';

export const m = words(every, { en: toldWords, de: () => import('./de-told') });
