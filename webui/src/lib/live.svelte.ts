/** A page's content, kept up to date with its contest. */

import { followHeads, outdated, type Head, type Line } from './heads';
import { Pace } from './pace';
import { Resource, type Read } from './resource.svelte';

/** However often a contest changes, it is read again no more often than this. */
const readEveryMs = 3_000;

/** What can be followed: it says of which contest and which state of it it is. */
export interface Shown {
  head: Head;
  contest: { id: string };
}

export class Followed<T extends Shown> extends Resource<T> {
  line = $state.raw<Line>({ state: 'connecting' });
  contest = $derived(this.value?.contest.id);

  /** Follows a contest's heads until the returned function is called. */
  follow(contest: string): () => void {
    const pace = new Pace(readEveryMs, this.again);
    const stop = followHeads(`/api/v1/contests/${encodeURIComponent(contest)}/events`, {
      line: (line) => (this.line = line),
      head: (told) => {
        if (!this.value || outdated(this.value.head, told)) pace.ask();
      },
    });
    return () => {
      stop();
      pace.stop();
    };
  }
}

/** Reads and follows as long as the calling component lives. */
export function followed<T extends Shown>(read: Read<T>): Followed<T> {
  const page = new Followed(read);
  $effect(() => (page.contest === undefined ? undefined : page.follow(page.contest)));
  $effect(() => () => page.stop());
  return page;
}

/** Reads as long as the calling component lives. */
export function resource<T>(read: Read<T>): Resource<T> {
  const page = new Resource(read);
  $effect(() => () => page.stop());
  return page;
}
