/** What the pages about judges and panels read and do. */

import type { components } from '../lib/api';
import { client, got } from '../lib/client';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
export type Judge = Schemas['JudgeAnalysis'];
export type Middle = Schemas['MiddleOfPanel'];
export type Own = Schemas['OwnAnalysis'];
export type Panel = Schemas['PanelAnalysis'];
export type Agreement = Schemas['PanelAgreement'];

const programmeOf = (programme: string) => ({ path: { programme } });

export const readAnalyses = (contest: string, signal: AbortSignal) =>
  got(client.GET('/api/v1/contests/{contest}/analyses', { params: { path: { contest } }, signal }));

export const readPanel = (programme: string, signal: AbortSignal): Promise<Panel> =>
  got(client.GET('/api/v1/programmes/{programme}/analysis', { params: programmeOf(programme), signal }));

export const readOwn = (programme: string, judge: string, signal: AbortSignal): Promise<Own> =>
  got(
    client.GET('/api/v1/programmes/{programme}/analysis/{judge}', {
      params: { path: { programme, judge } },
      signal,
    }),
  );

export const publishAnalysis = (programme: string): Promise<unknown> =>
  sent(client.POST('/api/v1/programmes/{programme}/analysis', { params: programmeOf(programme) }));
