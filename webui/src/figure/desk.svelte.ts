/** One sequence on the table: what is written, what is registered, and the draft between them. */

import { Failure } from '../lib/client';
import { me } from '../lib/me.svelte';
import { Refused } from './checking.svelte';
import { forget, keep, kept } from './drafts';
import { Editor } from './editor.svelte';
import {
  Changed,
  readSequence,
  register,
  release,
  signOff,
  targetName,
  type Owned,
  type Seen,
  type Target,
} from './service';
import { alike, emptySheet, taken, written, type Sheet } from './sheet';
import { slipsOf } from './slips';
import type { Complaint, Registered } from './types';

/** What the office is doing with the sequence now. */
type Doing = 'register' | 'sign-off' | 'release' | undefined;

/** Nothing is registered. */
const none: Seen = { digest: '', revision: 0 };

export class Desk {
  readonly editor = new Editor();
  registered = $state.raw<Registered>();
  /** When the draft was kept; nothing where there is no draft. */
  draftAt = $state.raw<Date>();
  /** The draft was found here, not written since the page was opened. */
  restored = $state(false);
  /** This device keeps nothing. */
  unkept = $state(false);
  doing = $state.raw<Doing>();
  done = $state.raw<Doing>();
  failure = $state.raw<Failure>();
  complaints = $state.raw<Complaint[]>([]);
  /** What somebody else registered meanwhile. */
  conflict = $state.raw<Registered>();

  /** The office registers every sequence, signs off and releases; a pilot registers the own. */
  mayDecide = $derived(me.isOffice(this.registered?.contest.id));
  mayRegister = $derived(this.mayDecide || me.isPilot(this.registered?.flight?.pilot?.id));

  /** The registered sequence as a sheet, empty where there is none. */
  base = $state.raw<Sheet>(emptySheet());
  differs = $derived(!alike(this.editor.sheet, this.base));

  #name: string;
  /** The registered sequence that what is written here began from. */
  #from: Seen = none;
  #known: Sheet | undefined;

  constructor(readonly target: Target) {
    this.#name = targetName(target);
  }

  /** Reads what is registered and puts the draft over it; throws a `Failure`. */
  async open(signal: AbortSignal): Promise<true> {
    if (this.target.kind !== 'scratch') {
      this.#take(await readSequence(this.target, signal));
    }
    const draft = kept(this.#name);
    this.editor.open(draft?.sheet ?? this.base);
    this.#known = this.editor.sheet;
    if (draft) {
      this.#from = draft.from;
      // eslint-disable-next-line svelte/prefer-svelte-reactivity -- this moment never changes
      this.draftAt = new Date(draft.at);
      this.restored = true;
    }
    return true;
  }

  /** Keeps what is written; to be called after every change. */
  keep(at: Date): void {
    const sheet = this.editor.sheet;
    if (sheet === this.#known) return;
    this.#known = sheet;
    this.done = undefined;
    this.complaints = [];
    this.failure = undefined;
    this.restored = false;
    if (!this.differs) {
      forget(this.#name);
      this.draftAt = undefined;
      return;
    }
    this.unkept = !keep(this.#name, { sheet, from: this.#from, at: at.toISOString() });
    this.draftAt = at;
  }

  /** Goes back to what is registered; undo brings the draft back. */
  discard = (): void => {
    this.#from = this.#seen();
    this.editor.change(this.base, { item: 0, move: -1 });
  };

  /** Registers what is written here, unless it would be sent without something that was typed. */
  register = async (): Promise<void> => {
    const sent = this.editor.sheet;
    const slips = slipsOf(sent);
    if (slips.length > 0) {
      this.done = undefined;
      this.complaints = slips;
      return;
    }
    await this.#do('register', (target) => register(target, written(sent), this.#from));
    if (this.done === 'register') this.#settle(sent);
  };

  signOff = (reason: string): Promise<void> =>
    this.#do('sign-off', (target) => signOff(target, this.#seen(), reason));

  release = (): Promise<void> => this.#do('release', (target) => release(target, this.#seen()));

  #seen = (): Seen => ({
    digest: this.registered?.digest ?? '',
    revision: this.registered?.revision ?? 0,
  });

  /** Registers what is written here in place of what somebody else registered. */
  mine = async (): Promise<void> => {
    if (this.conflict) this.#take(this.conflict);
    this.conflict = undefined;
    await this.register();
  };

  /** Takes what somebody else registered; undo brings back what was written here. */
  theirs = (): void => {
    if (this.conflict) this.#take(this.conflict);
    this.conflict = undefined;
    this.editor.change(this.base, { item: 0, move: -1 });
  };

  async #do(doing: Doing, ask: (target: Owned) => Promise<Registered>): Promise<void> {
    const { target } = this;
    if (this.doing || target.kind === 'scratch') return;
    this.doing = doing;
    this.done = undefined;
    this.failure = undefined;
    this.complaints = [];
    try {
      this.#take(await ask(target));
      this.done = doing;
    } catch (thrown) {
      await this.#failed(thrown, target);
    } finally {
      this.doing = undefined;
    }
  }

  /** Shows what was registered, with what the service filled in, and lets the draft go. */
  #settle(sent: Sheet): void {
    if (this.editor.sheet !== sent) return;
    this.editor.adopt(this.base);
    this.#known = this.editor.sheet;
    forget(this.#name);
    this.draftAt = undefined;
    this.restored = false;
  }

  async #failed(thrown: unknown, target: Owned): Promise<void> {
    if (thrown instanceof Refused) this.complaints = thrown.complaints;
    else if (thrown instanceof Changed) await this.#differ(target);
    else this.failure = Failure.of(thrown);
  }

  async #differ(target: Owned): Promise<void> {
    try {
      this.conflict = await readSequence(target, new AbortController().signal);
    } catch (thrown) {
      this.failure = Failure.of(thrown);
    }
  }

  #take(registered: Registered): void {
    this.registered = registered;
    this.#from = { digest: registered.digest, revision: registered.revision };
    this.base = taken(registered);
  }
}
