/** The words of reading QR codes, with those of every page. */
import { m as every } from '.';
import { scanWords } from './en-scan';

export const m = { ...every, ...scanWords };
