/** The words of the language shown. */
import { en, type Messages } from './en';

export const m: Messages = en;
