import { configure } from '@testing-library/svelte';
import { beforeEach } from 'vitest';
import { me } from './me.svelte';

/** The tests of several files share their modules and a window: where one went, and as whom, the next is not. */
beforeEach(() => {
  me.isNobody();
  history.replaceState(null, '', '/');
});

/** A page has time to show what it read, on a busy machine too. */
configure({ asyncUtilTimeout: 20_000 });

/** jsdom lays nothing out and animates nothing: what the pages ask of it answers quietly. */
Element.prototype.animate = () => ({ cancel() {}, finished: Promise.resolve() }) as unknown as Animation;
window.matchMedia = (query: string) =>
  ({
    matches: false,
    media: query,
    addEventListener() {},
    removeEventListener() {},
  }) as unknown as MediaQueryList;
window.ResizeObserver = class {
  observe() {}
  unobserve() {}
  disconnect() {}
};
