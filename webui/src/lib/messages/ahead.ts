/** The words of what the server draws ahead of the scripts, in every language; the build writes them for it. */
import type { Language } from '../language';
import de from './de-ahead';
import { aheadWords } from './en-ahead';

export const ahead: Record<Language, typeof aheadWords> = { en: aheadWords, de };
