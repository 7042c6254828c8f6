/** The words that only the server says, where it draws ahead of the scripts, in German. */
import type { aheadWords } from './en-ahead';

const inGerman: typeof aheadWords = {
  flightsIn: '{in} von {all} Flügen gewertet',
  number: 'Veröffentlichung {n}',
  noScript: 'Ohne JavaScript sind hier nur Ranglisten und veröffentlichte Ergebnisse lesbar.',
};
export default inGerman;
