/** What is seen at first is drawn at once, the rest when that is painted. */

/** How a long page comes. */
export class FirstPaint {
  /** Whether the first part has been painted. */
  past = $state(false);

  /** To be attached to something in the first part. */
  painted = () => {
    // The second frame comes when the first has been handed on to be drawn.
    let frame = requestAnimationFrame(
      () => (frame = requestAnimationFrame(() => setTimeout(() => (this.past = true)))),
    );
    return () => cancelAnimationFrame(frame);
  };
}

/** How a long list comes. */
export class FirstRows extends FirstPaint {
  #seen: number;

  /** Of rows that are at least so high, in px. */
  constructor(height = 56) {
    super();
    this.#seen = Math.ceil(innerHeight / height);
  }

  /** So many rows are drawn. */
  get most(): number {
    return this.past ? Infinity : this.#seen;
  }
}
