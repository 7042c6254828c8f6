/** What keying asks of the service. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
type PaperList = Schemas['PaperList'];
export type PaperSeat = Schemas['PaperSeat'];
export type PaperSheet = Schemas['PaperSheet'];
export type PaperReading = Schemas['PaperReading'];

const at = (flight: string, judge: string) => ({ params: { path: { flight, judge } } });

export const readSeats = (flight: string, signal: AbortSignal): Promise<PaperList> =>
  got(client.GET('/api/v1/flights/{flight}/paper', { params: { path: { flight } }, signal }));

export const readPaper = (flight: string, judge: string, signal: AbortSignal): Promise<PaperSheet> =>
  got(client.GET('/api/v1/flights/{flight}/paper/{judge}', { ...at(flight, judge), signal }));

export const key = (flight: string, judge: string, body: PaperReading): Promise<PaperSheet> =>
  sent(client.PUT('/api/v1/flights/{flight}/paper/{judge}', { ...at(flight, judge), body }));

export const forgetPaper = (flight: string, judge: string): Promise<unknown> =>
  sent(client.DELETE('/api/v1/flights/{flight}/paper/{judge}', at(flight, judge)));
