/** The words of forms, which load with the pages that have one. */
import { words } from '../language';
import { refusalWords } from './en-refusal';

export const m = words({ en: refusalWords, de: () => import('./de-refusal') });
