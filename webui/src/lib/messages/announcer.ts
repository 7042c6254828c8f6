/** The words of the announcer's page, with those of every page. */
import { m as common } from '.';
import { announcerWords } from './en-announcer';

export const m = { ...common, ...announcerWords };
