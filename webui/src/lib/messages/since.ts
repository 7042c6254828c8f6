/** The words of what changed since a publication; they load with a standing. */
import { words } from '../language';
import { sinceWords } from './en-since';

export const m = words({ en: sinceWords, de: () => import('./de-since') });
