/** The sheets of a publication, put together to be shown as live ones are. */

import type { Item, Sheet as LiveSheet } from '../results/types';
import type { Sheet, Sheets } from './types';

/** A sheet as the parts of the pages show it. */
export type SheetShown = Pick<LiveSheet, 'ranks' | 'items' | 'seats' | 'penalties' | 'method'> & {
  flight: Sheet['flight'];
  panel_score: number;
  standard_error: number;
};

/** By rank; of one pilot alone where that is asked for. */
export function sheetsOf(sheets: Sheets, pilot: string): SheetShown[] {
  return sheets.sheets
    .filter(({ flight }) => pilot === '' || flight.pilot === pilot)
    .sort((a, b) => (a.flight.rank ?? Infinity) - (b.flight.rank ?? Infinity))
    .map((sheet) => ({
      flight: sheet.flight,
      ranks: sheets.ranks,
      method: sheets.method,
      panel_score: sheet.panel_score,
      standard_error: sheet.standard_error,
      penalties: sheet.penalties,
      seats: sheet.seats,
      items: itemsOf(sheet, sheets),
    }));
}

function itemsOf({ sequence, rows }: Sheet, { sequences }: Sheets): Item[] {
  const flown = sequences[sequence] ?? [];
  return rows.flatMap((row, i) => (flown[i] ? [{ item: flown[i], ...row }] : []));
}
