/** The words that only the server says, where it draws ahead of the scripts: what varies in them stands in braces. */
export const aheadWords = {
  flightsIn: '{in} of {all} flights in',
  number: 'publication {n}',
  noScript: 'Without JavaScript only standings and published results can be read here.',
};
