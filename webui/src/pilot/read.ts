/** What the pilot's page reads. */

import { client, got } from '../lib/client';
import { me } from '../lib/me.svelte';
import type { PilotPage } from './next';

export function readPilot(contest: string, pilot: string, signal: AbortSignal): Promise<PilotPage> {
  return got(
    client.GET('/api/v1/contests/{contest}/pilots/{pilot}', {
      params: { path: { contest, pilot } },
      signal,
    }),
  );
}

/** Which of a contest's pilots the reader is; nothing for none. */
export async function readOwn(contest: string): Promise<{ signedIn: boolean; pilot: string | undefined }> {
  await me.ask();
  const held = (me.known?.roles ?? []).find((one) => one.role === 'pilot' && one.contest.id === contest);
  return { signedIn: me.known !== undefined, pilot: held?.pilot };
}
