/**
 * What a page needs beside the first script, by its address: its own script, which
 * the server tells the browser to fetch at once, and what it asks the service for
 * first, whose answers the server sends with the page. Otherwise the one would be
 * asked for when the first script has run, and the other when that one has. Of
 * standings the server draws that answer besides, to be read until the script has run.
 */

export interface Ahead {
  /** Its component under this folder, where it is not in the first script. */
  page?: string;
  /** Under `/api/v1`; `{id}` is that of the address. Who is signed in is read besides. */
  reads: string[];
  /** What the server draws of the answer to the first. */
  drawn?: 'programme' | 'category' | 'publication';
}

const office = 'contests/{id}/setup';

export const ahead: Record<string, Ahead> = {
  '/': { reads: ['contests?limit=200'] },
  '/programmes/{id}': {
    reads: ['programmes/{id}/results', 'programmes/{id}/publications'],
    drawn: 'programme',
  },
  '/contests/{id}': { page: 'results/Contest', reads: ['contests/{id}'] },
  '/categories/{id}': {
    page: 'results/Category',
    reads: ['categories/{id}/results', 'categories/{id}/publications'],
    drawn: 'category',
  },
  '/flights/{id}': { page: 'results/Sheet', reads: ['flights/{id}/result'] },
  '/contests/{id}/publications': {
    page: 'published/Publications',
    reads: ['contests/{id}', 'contests/{id}/publications'],
  },
  '/publications/{id}': { page: 'published/Publication', reads: ['publications/{id}'], drawn: 'publication' },
  '/programmes/{id}/published': {
    page: 'published/Latest',
    reads: ['programmes/{id}/publications/latest'],
    drawn: 'publication',
  },
  '/categories/{id}/published': {
    page: 'published/Latest',
    reads: ['categories/{id}/publications/latest'],
    drawn: 'publication',
  },
  '/contests/{id}/office': { page: 'publish/Needs', reads: ['contests/{id}/needs', 'contests/{id}'] },
  '/programmes/{id}/order': { page: 'order/Order', reads: ['programmes/{id}/order'] },
  '/programmes/{id}/paper': { page: 'keying/Flights', reads: ['programmes/{id}/results'] },
  '/programmes/{id}/publish': {
    page: 'publish/Publish',
    reads: ['programmes/{id}/publications/next?state=provisional'],
  },
  '/categories/{id}/publish': {
    page: 'publish/Publish',
    reads: ['categories/{id}/publications/next?state=provisional'],
  },
  '/contests/{id}/devices': { page: 'devices/Devices', reads: ['contests/{id}/devices', office] },
  '/contests/{id}/people': { page: 'account/People', reads: ['contests/{id}/members'] },
  '/contests/{id}/wall': { page: 'wall/Wall', reads: ['contests/{id}', 'contests/{id}/publications'] },
  '/contests/{id}/announcer': { page: 'announcer/Announcer', reads: ['contests/{id}/announcer'] },
  '/contests/{id}/pilot': { page: 'pilot/Own', reads: [] },
  '/contests/{id}/analyses': { page: 'panel/Analyses', reads: ['contests/{id}/analyses'] },
  '/contests/{id}/numbers': { page: 'figure/Numbers', reads: ['contests/{id}', 'contests/{id}/numbers'] },
  '/programmes/{id}/analysis': { page: 'panel/Panel', reads: ['programmes/{id}/analysis'] },
  '/programmes/{id}/sequence': { page: 'figure/Sequence', reads: ['programmes/{id}/sequence'] },
  '/programmes/{id}/cards': {
    page: 'cards/ProgrammeCards',
    reads: ['programmes/{id}', 'programmes/{id}/results', 'programmes/{id}/sequence'],
  },
  '/programmes/{id}/protests': {
    page: 'publish/Protests',
    reads: [
      'programmes/{id}',
      'programmes/{id}/protests',
      'programmes/{id}/publications',
      'programmes/{id}/results',
    ],
  },
  '/categories/{id}/limits': { page: 'figure/Limits', reads: ['categories/{id}/limits'] },
  '/flights/{id}/working': { page: 'method/Working', reads: ['flights/{id}/working'] },
  '/flights/{id}/sequence': { page: 'figure/Sequence', reads: ['flights/{id}/sequence'] },
  '/flights/{id}/cards': { page: 'cards/FlightCards', reads: ['flights/{id}/sequence'] },
  '/flights/{id}/paper': { page: 'keying/Keying', reads: ['flights/{id}/paper'] },
  '/seasons': { page: 'season/Seasons', reads: ['seasons'] },
  '/seasons/{id}': { page: 'season/Season', reads: ['seasons/{id}'] },
  '/contests/{id}/setup': { page: 'setup/Setup', reads: [office] },
  '/contests/{id}/setup/{page}': { page: 'setup/Setup', reads: [office] },
};
