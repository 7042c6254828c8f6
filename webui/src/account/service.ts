/** What the pages about accounts ask of the service. */

import type { components } from '../lib/api';
import { client } from '../lib/client';
import type { WhoIs } from '../lib/me.svelte';
import { sent } from '../lib/refusal';

type Schemas = components['schemas'];
export type AccountFields = Schemas['AccountFields'];
export type Offer = Schemas['Offer'];
export type Member = Schemas['Member'];
export type Invitation = Schemas['Invitation'];
export type NewInvitation = Schemas['NewInvitation'];

export const makeFirst = (link: string, account: AccountFields): Promise<WhoIs> =>
  sent(client.POST('/api/v1/first', { body: { link, account } }));

export const signIn = (email: string, password: string, code: string): Promise<WhoIs> =>
  sent(client.POST('/api/v1/sessions', { body: { email, password, ...(code === '' ? {} : { code }) } }));

export const signInByLink = (link: string): Promise<WhoIs> =>
  sent(client.POST('/api/v1/sessions/by-link', { body: { link } }));

export const signOut = (): Promise<unknown> => sent(client.DELETE('/api/v1/session'));

export const confirm = (password: string): Promise<unknown> =>
  sent(client.POST('/api/v1/me/confirmation', { body: { password } }));

export const resetPassword = (link: string, password: string): Promise<unknown> =>
  sent(client.POST('/api/v1/password', { body: { link, new: password } }));

export const changePassword = (present: string, next: string): Promise<unknown> =>
  sent(client.PUT('/api/v1/me/password', { body: { password: present, new: next } }));

export const readOffer = (link: string): Promise<Offer> =>
  sent(client.POST('/api/v1/invitations/offer', { body: { link } }));

export const accept = (link: string, account?: AccountFields): Promise<WhoIs> =>
  sent(client.POST('/api/v1/invitations/acceptance', { body: { link, ...(account ? { account } : {}) } }));

export const endSession = (session: string): Promise<unknown> =>
  sent(client.DELETE('/api/v1/me/sessions/{session}', { params: { path: { session } } }));

export const prepareFactor = (): Promise<Schemas['CodeKey']> => sent(client.POST('/api/v1/me/second-factor'));

export const confirmFactor = (code: string): Promise<unknown> =>
  sent(client.PUT('/api/v1/me/second-factor', { body: { code } }));

export const removeFactor = (): Promise<unknown> => sent(client.DELETE('/api/v1/me/second-factor'));

export const invite = (contest: string, body: NewInvitation): Promise<Schemas['InvitationMade']> =>
  sent(client.POST('/api/v1/contests/{contest}/invitations', { params: { path: { contest } }, body }));

export const withdraw = (contest: string, invitation: string): Promise<unknown> =>
  sent(
    client.DELETE('/api/v1/contests/{contest}/invitations/{invitation}', {
      params: { path: { contest, invitation } },
    }),
  );

export const takeRole = (contest: string, { account, role }: Member): Promise<unknown> =>
  sent(
    client.DELETE('/api/v1/contests/{contest}/members/{account}/{role}', {
      params: { path: { contest, account, role } },
    }),
  );
