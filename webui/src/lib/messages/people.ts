/** The words of a pilot's page and of what belongs to it, with those of published results. */
import { peopleWords } from './en-people';
import { m as published } from './published';

export const m = { ...published, ...peopleWords };
