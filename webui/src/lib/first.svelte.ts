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

  /** `seen`: so many of its rows a laptop shows. */
  constructor(seen = 14) {
    super();
    this.#seen = seen;
  }

  /** So many rows are drawn. */
  get most(): number {
    return this.past ? Infinity : this.#seen;
  }
}
