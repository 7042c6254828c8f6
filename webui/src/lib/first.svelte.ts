/** How a long list comes: the rows that are seen at first at once, the others when these are painted. */
export class FirstRows {
  /** So many rows are drawn: what a laptop shows of a list. */
  most = $state(14);

  /** To be attached to the list. */
  painted = () => {
    // The second frame comes when the first has been handed on to be drawn.
    let frame = requestAnimationFrame(
      () => (frame = requestAnimationFrame(() => setTimeout(() => (this.most = Infinity)))),
    );
    return () => cancelAnimationFrame(frame);
  };
}
