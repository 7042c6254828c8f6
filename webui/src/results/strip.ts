/** Where things lie on the strip of ranks, in per cent of its width; rank 1 is at the left. */

/** The middle of a rank among `ranks` of them. */
export function middle(rank: number, ranks: number): number {
  return ((Math.min(Math.max(rank, 1), ranks) - 0.5) * 100) / ranks;
}

/** The bar from the best to the worst rank, whole ranks wide. */
export function span(low: number, high: number, ranks: number): { x: number; width: number } {
  const half = 50 / ranks;
  const x = middle(low, ranks) - half;
  return { x, width: middle(high, ranks) + half - x };
}

/** The ranks that get a tick: all of a small field, then the first and every fifth or tenth. */
export function ticks(ranks: number): number[] {
  const all = Array.from({ length: ranks }, (_, i) => i + 1);
  const step = ranks <= 20 ? 1 : ranks <= 100 ? 5 : 25;
  return all.filter((rank) => rank === 1 || rank % step === 0);
}

/** The ranks written over the strip: the first, the last, and round ones that have room. */
export function labels(ranks: number): number[] {
  if (ranks < 1) return [];
  const step = ranks <= 8 ? 1 : ranks <= 20 ? 5 : ranks <= 60 ? 10 : ranks <= 200 ? 50 : 100;
  const between = ticks(ranks).filter((rank) => rank % step === 0 && rank > 1 && ranks - rank >= step / 2);
  return ranks === 1 ? [1] : [1, ...between.filter((rank) => rank < ranks), ranks];
}
