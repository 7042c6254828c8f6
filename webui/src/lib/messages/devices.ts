/** The words of the page about the line's devices, with those of the line. */
import { m as line } from './line';
import { devicesWords } from './en-devices';

export const m = { ...line, ...devicesWords };
