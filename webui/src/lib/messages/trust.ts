/** The words of the page about trust, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { trustWords } from './en-trust';

export const m = words(every, { en: trustWords, de: () => import('./de-trust') });
