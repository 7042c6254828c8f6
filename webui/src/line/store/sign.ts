/** The device's own signature over what it records: ECDSA on P-256 with SHA-256. */

import { recordText } from '../records/signed';
import type { LineRecord } from '../records/record';

const curve = { name: 'ECDSA', namedCurve: 'P-256' };
const algorithm = { name: 'ECDSA', hash: 'SHA-256' };

/** Makes a key that the browser never gives out, and its public half (65 bytes, uncompressed) in base64url. */
export async function newKey(): Promise<{ key: CryptoKey; publicKey: string }> {
  const pair = await crypto.subtle.generateKey(curve, false, ['sign', 'verify']);
  const raw = await crypto.subtle.exportKey('raw', pair.publicKey);
  return { key: pair.privateKey, publicKey: base64url(new Uint8Array(raw)) };
}

/** The signature of a record (64 bytes, r and s) in base64url. */
export async function sign(key: CryptoKey, contest: string, record: LineRecord): Promise<string> {
  const text = new TextEncoder().encode(recordText(contest, record));
  return base64url(new Uint8Array(await crypto.subtle.sign(algorithm, key, text)));
}

export function base64url(bytes: Uint8Array): string {
  const text = btoa(String.fromCharCode(...bytes));
  return text.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}
