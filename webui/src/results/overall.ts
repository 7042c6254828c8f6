/** A category's standing as rows. */

import { m } from '../lib/messages';
import { fixed } from '../lib/numbers';
import { to } from '../lib/router';
import { detail } from './standings';
import type { Column, Group, Row } from './table';
import type { Category, CategoryStandings, Overall } from './types';

/** A column for each programme, with what it adds to the total, then the total. */
export function columns(category: Category): Column[] {
  return [
    ...category.programmes.map(({ id, name }) => ({ key: id, name })),
    { key: 'total', name: m.category.total, main: true },
  ];
}

/** The pilots by rank; those without one where their total would place them. */
export function pilots({ overall, category }: CategoryStandings): Group[] {
  const rows = [...overall].sort(byRank).map((one) => pilotRow(one, category));
  return rows.length > 0 ? [{ key: 'overall', name: '', rows }] : [];
}

export function teams({ teams }: CategoryStandings): Group[] {
  const rows = [...teams]
    .sort((a, b) => a.rank - b.rank)
    .map(({ team, total, rank, pilots }) => ({
      ...emptyRow,
      key: team,
      name: team,
      detail: pilots.map((pilot) => pilot.name).join(', '),
      rank,
      numbers: [{ text: fixed(total, 2) }],
    }));
  return rows.length > 0 ? [{ key: 'teams', name: '', rows }] : [];
}

/** How many ranks the strip is wide; 0 where no rank's certainty is known. */
export function overallRanks(overall: Overall[]): number {
  if (!overall.some((one) => one.certainty)) return 0;
  return overall.filter((one) => one.rank !== undefined).length;
}

/** How many flights of the programmes are in. */
export function flownOf(category: Category): { in: number; all: number } {
  const sum = (of: 'flown' | 'flights') => category.programmes.reduce((total, one) => total + one[of], 0);
  return { in: sum('flown'), all: sum('flights') };
}

/** Some of its flights have their score, some not. */
export function underWay(category: Category): boolean {
  return category.programmes.some((one) => one.counts && one.flown > 0 && one.flown < one.flights);
}

/** The cut that stands in the standing: the last one that was made, else the first that will be. */
export function cutOf({ programmes }: Category): Category['programmes'][number] | undefined {
  const cuts = programmes.filter(({ cut, counts }) => cut > 0 && counts);
  return cuts.findLast(({ flown, flights }) => flights > 0 && flown >= flights) ?? cuts[0];
}

const emptyRow: Omit<Row, 'key' | 'name' | 'rank' | 'numbers'> = {
  detail: '',
  note: '',
  unranked: '',
  moved: 0,
};

function pilotRow(one: Overall, category: Category): Row {
  const scores = category.programmes.map(({ id }) => {
    const score = one.by_programme.find(({ programme }) => programme === id);
    if (!score) return { text: '' };
    const added = category.combine === 'sum' ? score.score : score.percent;
    return { text: fixed(added, 2), href: to.flight(score.flight) };
  });
  return {
    ...emptyRow,
    key: one.pilot.id,
    name: one.pilot.name,
    detail: of(one),
    rank: one.rank ?? null,
    unranked: one.ranked ? '' : m.standings.unranked,
    numbers: [...scores, { text: fixed(one.total, 2) }],
    ...(one.certainty ? { certainty: one.certainty } : {}),
  };
}

/** The club and the team; one of them where the team is the club's own. */
function of({ team = '', pilot }: Overall): string {
  const own = pilot.affiliation !== '' && team.startsWith(pilot.affiliation);
  if (own) return detail({ ...pilot, affiliation: team });
  return [detail(pilot), team && m.category.inTeam(team)].filter(Boolean).join(' · ');
}

/** By rank where both have one (a cut ranks before the total), else by total. */
function byRank(a: Overall, b: Overall): number {
  if (a.rank !== undefined && b.rank !== undefined) return a.rank - b.rank;
  return b.total - a.total;
}
