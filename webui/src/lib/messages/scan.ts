/** The words of reading QR codes, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { scanWords } from './en-scan';

export const m = words(every, { en: scanWords, de: () => import('./de-scan') });
