/** The words of the announcer's page, with those of every page. */
import { every } from '.';
import { words } from '../language';
import { announcerWords } from './en-announcer';

export const m = words(every, { en: announcerWords, de: () => import('./de-announcer') });
