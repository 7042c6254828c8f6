/** Who is signed in here. The service alone knows; the name is kept to be shown at once. */

import type { components } from './api';
import { answerTo } from './carried';

export type WhoIs = components['schemas']['Me'];
type RoleName = WhoIs['roles'][number]['role'];

const key = 'halfpoint.name';

class Me {
  /** As the service says; nothing while it has not been asked, and where nobody is. */
  known = $state.raw<WhoIs>();
  #kept = $state(read());
  #asked: Promise<void> | undefined;

  /** What to call whoever is signed in; empty for nobody. */
  get name(): string {
    return this.known?.account?.name ?? this.#kept;
  }

  /** Asks the service who is signed in, once; where nobody ever signed in here, it is not asked. */
  async start(): Promise<void> {
    if (this.name !== '' && !this.known) await this.ask();
  }

  /** Asks the service who is signed in; once, however many wait for it. */
  ask(): Promise<void> {
    this.#asked ??= this.#ask().finally(() => (this.#asked = undefined));
    return this.#asked;
  }

  async #ask(): Promise<void> {
    const request = new Request(new URL('/api/v1/me', location.origin));
    const answer = await answerTo(request).catch(() => undefined);
    if (answer?.ok) this.is((await answer.json()) as WhoIs);
    else if (answer?.status === 401) this.isNobody();
  }

  /** Somebody has signed in. */
  is(who: WhoIs): void {
    this.known = who;
    this.#keep(who.account?.name ?? '');
  }

  /** Nobody is signed in any more. */
  isNobody(): void {
    this.known = undefined;
    this.#keep('');
  }

  /** Whether they are one of these in a contest, or in any where none is named. */
  has(roles: RoleName[], contest?: string): boolean {
    if (this.known?.account?.owner) return true;
    return (this.known?.roles ?? []).some(
      (held) => roles.includes(held.role) && (contest === undefined || held.contest.id === contest),
    );
  }

  /** Whether the office's work is theirs. */
  isOffice(contest?: string): boolean {
    return this.has(['office', 'director'], contest);
  }

  /** Whether this pilot of a contest is theirs to be. */
  isPilot(pilot: string | undefined): boolean {
    return pilot !== undefined && (this.known?.roles ?? []).some((held) => held.pilot === pilot);
  }

  #keep(name: string): void {
    this.#kept = name;
    try {
      if (name === '') localStorage.removeItem(key);
      else localStorage.setItem(key, name);
    } catch {
      // Storage is switched off: the name is known until the page is left.
    }
  }
}

export const me = new Me();

function read(): string {
  try {
    return localStorage.getItem(key) ?? '';
  } catch {
    return '';
  }
}
