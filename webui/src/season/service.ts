/** What the pages about seasons read and do. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
export type Season = Schemas['Season'];
export type Part = Schemas['SeasonPart'];
export type Rules = Schemas['SeasonRules'];
export type Row = Schemas['SeasonRow'];
export type Standing = Schemas['SeasonStanding'];
export type Change = Schemas['SeasonChange'];
export type People = Schemas['SeasonPeople'];
export type Pilot = Schemas['SeasonPilot'];

const of = (season: string) => ({ path: { season } });

export const readSeasons = (signal: AbortSignal) => got(client.GET('/api/v1/seasons', { signal }));

export const readSeason = (season: string, signal: AbortSignal): Promise<Season> =>
  got(client.GET('/api/v1/seasons/{season}', { params: of(season), signal }));

export const readPeople = (season: string, signal: AbortSignal): Promise<People> =>
  got(client.GET('/api/v1/seasons/{season}/people', { params: of(season), signal }));

export const makeSeason = (name: string): Promise<Season> =>
  sent(client.POST('/api/v1/seasons', { body: { name } }));

export const changeSeason = (season: string, body: Change): Promise<Season> =>
  sent(client.PUT('/api/v1/seasons/{season}', { params: of(season), body }));

export const deleteSeason = (season: string, revision: number): Promise<unknown> =>
  sent(client.DELETE('/api/v1/seasons/{season}', { params: { ...of(season), query: { revision } } }));

/** Who is one person: those with a person, and nobody else. */
export const confirmPeople = (season: string, revision: number, pilots: Pilot[]): Promise<People> =>
  sent(
    client.PUT('/api/v1/seasons/{season}/people', {
      params: of(season),
      body: {
        revision,
        people: pilots.flatMap(({ contest, pilot, person }) =>
          person ? [{ contest: contest.id, pilot, person }] : [],
        ),
      },
    }),
  );
