/** The words of the pages that tell how a score comes about, with those of published results. */
import { methodWords } from './en-method';
import { m as published } from './published';

export const m = { ...published, ...methodWords };
