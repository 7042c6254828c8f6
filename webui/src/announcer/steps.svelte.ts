/** Which figure is announced: the one that the line is at, or one that was stepped to. */

import { counts } from '../line/caller/calls.svelte';
import type { AnnouncedFlight, AnnouncedItem } from './service';

export class Steps {
  #stepped = $state.raw<{ flight: string; at: number; from: number }>();
  readonly items: AnnouncedItem[];
  /** Where the line is, from 1; past the last where all have a grade. */
  readonly line: number;
  readonly stepped: number | undefined;
  readonly at: number;

  constructor(private readonly flight: () => AnnouncedFlight) {
    this.items = $derived(this.flight().items.filter(({ kind }) => kind === 'figure'));
    this.line = $derived(Math.min(this.flight().entered, this.items.length) + 1);
    this.stepped = $derived.by(() => {
      const step = this.#stepped;
      return step && step.flight === this.flight().id && counts(step, this.line) ? step.at : undefined;
    });
    this.at = $derived(this.stepped ?? this.line);
  }

  step(by: number): void {
    const at = Math.min(Math.max(this.at + by, 1), this.items.length + 1);
    this.#stepped = { flight: this.flight().id, at, from: this.line };
  }

  follow = (): void => {
    this.#stepped = undefined;
  };

  /** What a key does; false where it does nothing here. */
  key(key: string): boolean {
    if (key === ' ' || key === 'ArrowRight') this.step(1);
    else if (key === 'ArrowLeft') this.step(-1);
    else if (key === 'Home') this.follow();
    else return false;
    return true;
  }
}
