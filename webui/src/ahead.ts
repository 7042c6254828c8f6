/**
 * What the server tells a browser to fetch beside the first script, by the address
 * of the page: the page's own script, and what the page asks the service for first.
 * Otherwise the one would be asked for when the first script has run, and the other
 * when that one has.
 */

export interface Ahead {
  /** Its component under this folder, where it is not in the first script. */
  page?: string;
  /** Under `/api/v1`; `{id}` is that of the address. */
  reads: string[];
}

const office = 'contests/{id}/setup';

export const ahead: Record<string, Ahead> = {
  '/': { reads: ['contests?limit=200'] },
  '/programmes/{id}': { reads: ['programmes/{id}/results', 'programmes/{id}/publications'] },
  '/contests/{id}': { page: 'results/Contest', reads: ['contests/{id}'] },
  '/categories/{id}': {
    page: 'results/Category',
    reads: ['categories/{id}/results', 'categories/{id}/publications'],
  },
  '/flights/{id}': { page: 'results/Sheet', reads: ['flights/{id}/result'] },
  '/contests/{id}/publications': {
    page: 'published/Publications',
    reads: ['contests/{id}', 'contests/{id}/publications'],
  },
  '/publications/{id}': { page: 'published/Publication', reads: ['publications/{id}'] },
  '/programmes/{id}/published': { page: 'published/Latest', reads: ['programmes/{id}/publications/latest'] },
  '/categories/{id}/published': { page: 'published/Latest', reads: ['categories/{id}/publications/latest'] },
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
  '/contests/{id}/setup': { page: 'setup/Setup', reads: [office] },
  '/contests/{id}/setup/{page}': { page: 'setup/Setup', reads: [office] },
};
