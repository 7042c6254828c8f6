/** What the page about the people of a contest reads. */

import { client, got } from '../lib/client';
import type { Invitation, Member } from './service';

export interface People {
  contest: { id: string; name: string };
  members: Member[];
  invitations: Invitation[];
  /** Whom a pilot's account can belong to. */
  pilots: { id: string; name: string }[];
  /** Whom a judge's account can belong to. */
  judges: { id: string; name: string }[];
}

export async function readPeople(contest: string, signal: AbortSignal): Promise<People> {
  const asked = { params: { path: { contest } }, signal };
  const { members } = await got(client.GET('/api/v1/contests/{contest}/members', asked));
  const [{ invitations }, setup] = await Promise.all([
    got(client.GET('/api/v1/contests/{contest}/invitations', asked)),
    got(client.GET('/api/v1/contests/{contest}/setup', asked)),
  ]);
  const { name } = setup.contest;
  const judges = setup.officials.filter(({ duty }) => duty === 'judge');
  return { contest: { id: contest, name }, members, invitations, pilots: setup.pilots, judges };
}
