/** How this browser becomes a device of a contest. */

import type { Named } from '../plan';
import type { Role } from '../store/schema';
import { newKey } from '../store/sign';
import type { LineStore } from '../store/store';

/** A code that was typed, or the secret of a link. */
export type Secret = { code: string } | { link: string };

export interface Offer {
  contest: Named;
  role: Role;
  judge?: Named;
}

interface Claimed extends Offer {
  device: string;
}

/** Why a pairing did not come about. */
export class PairingFailure extends Error {
  constructor(
    readonly kind: 'bad' | 'slow' | 'away',
    detail: string,
  ) {
    super(detail);
  }
}

/** What a code or a link offers. */
export const look = (secret: Secret): Promise<Offer> => post<Offer>('offer', secret);

interface Pending {
  secret: string;
  key: CryptoKey;
  publicKey: string;
}

/**
 * Takes an offer. The key is kept before it is shown to the service: where the
 * answer is lost, or the page is left, the same key may ask again.
 */
export async function claim(store: LineStore, secret: Secret): Promise<void> {
  const text = JSON.stringify(secret);
  let pending = await store.noted<Pending>('', 'pending pairing');
  if (pending?.secret !== text) {
    pending = { secret: text, ...(await newKey()) };
    await store.note('', 'pending pairing', pending);
  }
  const claimed = await post<Claimed>('claim', { ...secret, public_key: pending.publicKey });
  await store.pair({
    device: claimed.device,
    contest: claimed.contest.id,
    role: claimed.role,
    ...(claimed.judge ? { judge: claimed.judge.id } : {}),
    paired_at: new Date().toISOString(),
    store: crypto.randomUUID(),
    key: pending.key,
    seq: 0,
    epoch: '',
    have: 0,
  });
}

async function post<T>(what: string, body: unknown): Promise<T> {
  const response = await fetch(`/api/v1/pairings/${what}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  }).catch((thrown: unknown): never => {
    throw new PairingFailure('away', String(thrown));
  });
  if (response.ok) return (await response.json()) as T;
  const problem = (await response.json().catch(() => ({}))) as { detail?: string };
  const kind = response.status === 429 ? 'slow' : response.status >= 500 ? 'away' : 'bad';
  throw new PairingFailure(kind, problem.detail ?? '');
}
