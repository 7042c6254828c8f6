/** The words of the pages about judges and panels, which load with them. */
import { every } from '.';
import { words } from '../language';
import { panelWords } from './en-panel';

export const m = words(every, { en: panelWords, de: () => import('./de-panel') });
