import { m } from '../lib/messages';
import { percentOf } from '../lib/numbers';
import type { Certainty } from './types';

/** How sure a rank is, in words. */
export function sure({ rank_low, rank_high, p_first, p_podium }: Certainty): string {
  const words = [m.standings.range(rank_low, rank_high), m.standings.first(percentOf(p_first))];
  if (p_first < 1) words.push(m.standings.podium(percentOf(p_podium)));
  return words.filter(Boolean).join(' ');
}
