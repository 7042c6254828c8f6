/** The words of publishing and of the office's first page, with those of published results. */
import { publishWords } from './en-publish';
import { m as published } from './published';

export const m = { ...published, ...publishWords };
