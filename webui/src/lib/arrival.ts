/**
 * Whether the reader came to the present page by a link inside the application:
 * a browser says nothing of such a step, so the new heading takes the focus.
 * The first page after loading leaves the focus to the browser.
 */
let steps = 0;

/** Told of every step from one page to another. */
export function step(): void {
  steps++;
}

/** True on every page but the first. */
export function arrived(): boolean {
  return steps > 0;
}
