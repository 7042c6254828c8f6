/** What the announcer's page asks of the service. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';

type Schemas = components['schemas'];
export type Announcement = Schemas['Announcement'];
export type AnnouncedFlight = Schemas['AnnouncedFlight'];
export type AnnouncedItem = Schemas['AnnouncedItem'];
export type PlaceNeed = Schemas['PlaceNeed'];
export type WhatItTakes = Schemas['WhatItTakes'];

export const readAnnouncement = (contest: string, signal: AbortSignal): Promise<Announcement> =>
  got(client.GET('/api/v1/contests/{contest}/announcer', { params: { path: { contest } }, signal }));
