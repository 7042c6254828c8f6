/** The certificate that tablets trust, where the service makes its own. */

import { Failure } from '../lib/client';

export const certificatePath = '/authority.crt';

export interface Certificate {
  /** Where a tablet gets it. */
  address: string;
  /** The first bits of its SHA-256 as six words, as the service says them. */
  words: string;
  /** Pairs of hexadecimal digits of its SHA-256, as devices show it; nothing where the browser computes none. */
  fingerprint: string[] | undefined;
}

/** Reads it; nothing where there is none to be trusted. */
export async function readCertificate(signal: AbortSignal): Promise<Certificate | undefined> {
  const response = await fetch(certificatePath, { signal, cache: 'no-store' }).catch(
    (thrown: unknown): never => {
      throw Failure.of(thrown);
    },
  );
  if (response.status === 404) return undefined;
  if (!response.ok) throw new Failure('refused', response.status, response.statusText);
  const name = response.headers.get('Halfpoint-Name');
  const fingerprint = await fingerprintOf(await response.arrayBuffer());
  const words = response.headers.get('Halfpoint-Words') ?? '';
  return { address: addressUnder(name ?? location.hostname), words, fingerprint };
}

/** The address of the certificate under a name, at the port of this page. */
function addressUnder(name: string): string {
  const url = new URL(certificatePath, location.href);
  url.hostname = name;
  return url.href;
}

/** Only a page that came over HTTPS, or from this machine, can compute it. */
async function fingerprintOf(der: ArrayBuffer): Promise<string[] | undefined> {
  const sum = await globalThis.crypto.subtle?.digest('SHA-256', new Uint8Array(der));
  return sum && [...new Uint8Array(sum)].map((byte) => byte.toString(16).padStart(2, '0').toUpperCase());
}
