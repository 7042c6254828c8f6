import type { Entry } from './pool';

/** The different remarks of heads, in the order of their ids. */
export function joined(heads: readonly Entry[]): string {
  const all = heads.map((e) => e.record.remark ?? '').filter((remark) => remark !== '');
  return [...new Set(all)].join(' / ');
}
