/** The words of the pages about judges and panels, which load with them. */
import { en } from './en';
import { panelWords } from './en-panel';

export const m = { ...en, ...panelWords };
