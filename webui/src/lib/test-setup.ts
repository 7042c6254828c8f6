import { configure } from '@testing-library/svelte';
import { beforeEach } from 'vitest';
import { me } from './me.svelte';

/** The tests of several files share their modules: whoever signed in by one is gone by the next. */
beforeEach(() => me.isNobody());

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
