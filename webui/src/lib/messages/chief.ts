/** The words of the officials' and the assistant's pages on the line, with those of the line. */
import { m as line } from './line';
import { chiefWords } from './en-chief';

export const m = { ...line, ...chiefWords };
