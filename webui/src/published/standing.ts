/** The standing of a publication as rows, and as a table to be saved. */

import { m } from '../lib/messages/published';
import { fixed } from '../lib/numbers';
import { to } from '../lib/router';
import { detail } from '../results/standings';
import type { Column, Group, Row } from '../results/table';
import { overallTable, standingTable, teamTable } from '../results/tables';
import type { Place, Publication } from './types';

/** What a standing is made of, published or about to be. */
export type Standing = Pick<Publication, 'programmes' | 'standing' | 'combine'> & {
  /** It is a programme's, not a category's. */
  programme: boolean;
  /** The publication whose sheets its rows lead to; empty for none. */
  linked: string;
};

export function standingOf(publication: Publication): Standing {
  const { about } = publication;
  return { ...publication, programme: about.programme !== undefined, linked: about.id };
}

export function columnsOf({ programme, programmes }: Standing): Column[] {
  const score = { key: 'score', name: m.standings.score, main: true };
  if (programme) {
    return [score, { key: 'percent', name: m.standings.percent, long: m.standings.percentLong }];
  }
  return [
    ...programmes.map(({ programme, name }) => ({ key: programme, name })),
    { ...score, name: m.category.total },
  ];
}

export function groupsOf(of: Standing): Group[] {
  const rows = [...of.standing].sort(byRank).map((place) => rowOf(place, of));
  const placed = rows.filter((row) => row.note === '');
  const others = rows.filter((row) => row.note !== '');
  return [
    { key: 'placed', name: '', rows: placed },
    { key: 'others', name: m.standings.groups.out, rows: others },
  ].filter((group) => group.rows.length > 0);
}

export function teamGroups({ teams }: Publication): Group[] {
  const rows = [...teams]
    .sort((a, b) => a.rank - b.rank)
    .map(({ team, total, rank, pilots }) => ({
      ...blank,
      key: team,
      name: team,
      detail: pilots.join(', '),
      rank,
      numbers: [{ text: fixed(total, 2) }],
    }));
  return rows.length > 0 ? [{ key: 'teams', name: '', rows }] : [];
}

/** How many ranks the strip is wide. */
export function ranksOf({ standing }: Publication): number {
  return Math.max(
    0,
    ...standing.map(({ rank, certainty }) => (certainty ? Math.max(rank ?? 0, certainty.rank_high) : 0)),
  );
}

const blank = { detail: '', note: '', unranked: '', moved: 0 };

function rowOf(place: Place, { programme, programmes, combine, linked }: Standing): Row {
  const scores = programmes.map((each) => {
    const score = place.scores.find((one) => one.programme === each.programme);
    return { text: fixed(combine === 'sum' ? score?.score : score?.percent, 2) };
  });
  const last = programme ? [{ text: fixed(place.percent, 2) }] : [];
  const total = { text: fixed(place.score, 2) };
  return {
    ...blank,
    key: place.pilot,
    name: place.name,
    ...(programme && linked !== '' && place.score !== undefined && place.status === 'flown'
      ? { href: to.publishedSheets(linked, place.pilot) }
      : {}),
    detail: [detail(place), place.team && m.category.inTeam(place.team)].filter(Boolean).join(' · '),
    note: noteOf(place),
    rank: place.rank ?? null,
    unranked: place.ranked === false ? m.standings.unranked : '',
    numbers: programme ? [total, ...last] : [...scores, total],
    ...(place.certainty ? { certainty: place.certainty } : {}),
  };
}

/** Why a flight has no score; nothing where it has one. */
function noteOf({ status, score }: Place): string {
  if (status === undefined || (status === 'flown' && score !== undefined)) return '';
  return m.published.status[status] ?? status;
}

function byRank(a: Place, b: Place): number {
  return (a.rank ?? Infinity) - (b.rank ?? Infinity) || (b.score ?? -Infinity) - (a.score ?? -Infinity) || 0;
}

export function tableOf({ about, programmes, standing }: Publication) {
  const places = [...standing].sort(byRank).map((place) => ({
    ...place,
    pilot: place,
    state: place.status,
    scores: new Map(place.scores.map((one) => [one.programme, one])),
  }));
  if (about.programme) return standingTable(places);
  return overallTable(
    programmes.map(({ programme, name }) => ({ id: programme, name })),
    places,
  );
}

export function teamsTableOf({ teams }: Publication) {
  return teamTable(teams);
}
