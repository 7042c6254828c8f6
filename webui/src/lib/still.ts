/**
 * Keeps still what the reader is looking at while rows change places: the page
 * scrolls with the rows in view, and only what truly moved is seen to move.
 */

/** Each row's top edge in the window, by its key. */
export type Places = Map<string, number>;

/** The rows that carry a `data-key` inside an element. */
export function rowsOf(within: Element): HTMLElement[] {
  return [...within.querySelectorAll<HTMLElement>('[data-key]')];
}

export function places(within: Element): Places {
  return new Map(rowsOf(within).map((row) => [row.dataset.key ?? '', row.getBoundingClientRect().top]));
}

/**
 * How far to scroll so that the rows in view stay: by as much as the row with
 * the focus moved, else by the median of the rows in view. A reader at the top
 * of the page looks at the leaders, whoever they are: nothing to do there.
 */
export function correction(
  before: Places,
  after: Places,
  view: { height: number; scrolled: number },
  focused?: string,
): number {
  if (view.scrolled <= 0) return 0;
  const moved = (key: string) => (after.get(key) ?? NaN) - (before.get(key) ?? NaN);
  if (focused !== undefined && !Number.isNaN(moved(focused))) return moved(focused);
  const inView = [...before].filter(([, top]) => top >= 0 && top < view.height);
  const all = inView
    .map(([key]) => moved(key))
    .filter((by) => !Number.isNaN(by))
    .sort((a, b) => a - b);
  return all[Math.floor((all.length - 1) / 2)] ?? 0;
}

/**
 * Remembers where the rows are before they change places. The returned function,
 * called afterwards, scrolls, gives the focus back to a link whose row was
 * moved, and lets what moved glide from where it was.
 */
export function hold(within: Element): () => void {
  const before = places(within);
  const active = document.activeElement;
  const focused = within.contains(active)
    ? active?.closest<HTMLElement>('[data-key]')?.dataset.key
    : undefined;
  return () => {
    if (focused !== undefined && active instanceof HTMLElement && active.isConnected) {
      active.focus({ preventScroll: true });
    }
    const view = { height: innerHeight, scrolled: scrollY };
    const by = correction(before, places(within), view, focused);
    if (Math.abs(by) >= 1) scrollBy({ top: by, behavior: 'instant' });
    if (!matchMedia('(prefers-reduced-motion: reduce)').matches) glide(within, before);
  };
}

function glide(within: Element, before: Places): void {
  const after = places(within);
  for (const row of rowsOf(within)) {
    const key = row.dataset.key ?? '';
    const from = (before.get(key) ?? NaN) - (after.get(key) ?? NaN);
    if (!(Math.abs(from) >= 1)) continue;
    row.animate([{ transform: `translateY(${from}px)` }, { transform: 'none' }], {
      duration: 600,
      easing: 'cubic-bezier(0.3, 0, 0.2, 1)',
    });
  }
}
