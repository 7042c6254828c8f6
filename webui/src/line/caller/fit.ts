/** Steps by which letters get smaller, and how small they may get: a call that is longer still is scrolled. */
const [step, least] = [0.05, 0.5];

/** Makes what stands in a box as small as it must be to be seen whole: `--fit` is its share of the full size. */
export function fit(box: HTMLElement): () => void {
  const look = () => {
    for (let share = 1; share >= least; share -= step) {
      box.style.setProperty('--fit', share.toFixed(2));
      if (box.scrollHeight <= box.clientHeight) return;
    }
  };
  look();
  void document.fonts?.ready.then(look);
  addEventListener('resize', look);
  return () => removeEventListener('resize', look);
}
