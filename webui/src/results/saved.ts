/** Live results as tables to be saved; loaded when somebody asks for one. */

import { flightsByRank } from './standings';
import { overallTable, sheetTable, standingTable, teamTable } from './tables';
import type { CategoryStandings, Sheet, Standings } from './types';

export function savedStandings({ flights }: Standings) {
  return standingTable(flightsByRank(flights));
}

export function savedOverall({ category, overall }: CategoryStandings) {
  const places = [...overall].sort((a, b) => (a.rank ?? Infinity) - (b.rank ?? Infinity));
  return overallTable(
    category.programmes,
    places.map((one) => ({
      ...one,
      score: one.total,
      scores: new Map(one.by_programme.map((score) => [score.programme, score])),
    })),
  );
}

export function savedTeams({ teams }: CategoryStandings) {
  return teamTable(teams.map((team) => ({ ...team, pilots: team.pilots.map(({ name }) => name) })));
}

export function savedSheet({ items, seats }: Sheet) {
  return sheetTable(items, seats);
}
