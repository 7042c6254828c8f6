/** The words of the page about the line's devices, with those of the line. */
import { every } from '.';
import { words } from '../language';
import { devicesWords } from './en-devices';
import { line } from './line';

export const m = words(every, line, { en: devicesWords, de: () => import('./de-devices') });
