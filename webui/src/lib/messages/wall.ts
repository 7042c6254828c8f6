/** The words of the display for a wall, with those of published results. */
import { wallWords } from './en-wall';
import { m as published } from './published';

export const m = { ...published, ...wallWords };
