/** Checks in the browser what it can of a publication: its signature and its hashes. */

import { m } from '../lib/messages/published';
import type { Publication } from './types';

/** One thing checked; nothing where this browser cannot check it. */
export interface Finding {
  agrees: boolean | undefined;
  text: string;
}

/** The lines of a statement that say what was signed, counted from 0 (docs/publications.md). */
const line = { key: 1, reason: 8, bundle: 10, results: 11 };

const words = m.published.verify;

/** Reads what was published anew and holds it to the statement. */
export async function check({ about, statement, signature, key }: Publication): Promise<Finding[]> {
  const said = statement.split('\n');
  const [bundle, results] = await Promise.all([fetched(about.id, 'bundle'), fetched(about.id, 'results')]);
  const held = async (bytes: Uint8Array<ArrayBuffer>, at: number, one: boolean, what: string) => {
    const agrees = (await hash(bytes)) === said[at];
    return { agrees, text: agrees ? (one ? words.agreesOne : words.agrees)(what) : words.disagrees(what) };
  };
  return [
    await signed(statement, signature, key.pem),
    await named(key.pem, said[line.key] ?? ''),
    await held(bundle, line.bundle, false, words.grades),
    await held(results, line.results, false, words.results),
    await held(encoded(about.reason), line.reason, true, words.reason),
  ];
}

async function signed(statement: string, signature: string, pem: string): Promise<Finding> {
  try {
    const key = await crypto.subtle.importKey('spki', der(pem), 'Ed25519', false, ['verify']);
    const agrees = await crypto.subtle.verify('Ed25519', key, decoded(signature), encoded(statement));
    return { agrees, text: agrees ? words.signed : words.notSigned };
  } catch {
    return { agrees: undefined, text: words.cannotSigned };
  }
}

async function named(pem: string, fingerprint: string): Promise<Finding> {
  const agrees = (await hash(der(pem))) === fingerprint;
  return { agrees, text: agrees ? words.fingerprintAgrees : words.fingerprintOther };
}

async function fetched(id: string, what: string): Promise<Uint8Array<ArrayBuffer>> {
  const answer = await fetch(`/api/v1/publications/${encodeURIComponent(id)}/${what}`);
  if (!answer.ok) throw new Error(`${what}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}

async function hash(bytes: BufferSource): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

function encoded(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text) as Uint8Array<ArrayBuffer>;
}

function decoded(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}

/** The bytes between the lines of a key in PEM (RFC 7468). */
function der(pem: string): Uint8Array<ArrayBuffer> {
  return decoded(pem.replace(/-----[^-]+-----/g, '').replace(/\s/g, ''));
}
