/** What a wall shows: a board for each standing that there is. */

import type { components } from '../lib/api';
import { m } from '../lib/messages/wall';
import { moment } from '../lib/times';
import { readLatest, readList } from '../published/read';
import { columnsOf, groupsOf, ranksOf, standingOf, teamGroups } from '../published/standing';
import type { Summary } from '../published/types';
import { columns, overallRanks, pilots, teams } from '../results/overall';
import { readCategory, readContest, readStandings, type ContestShown } from '../results/read';
import { groups, ranks } from '../results/standings';
import type { Column, Group, Row } from '../results/table';
import type { Category, Flight, Programme } from '../results/types';

/** A standing to be shown, live or as it was published. */
export interface Board {
  key: string;
  title: string;
  of: 'programme' | 'category';
  id: string;
  /** What is published of it, where that is shown and not what is live. */
  published?: Summary;
}

/** What a board shows. */
export interface Content {
  parts: Part[];
  /** What else there is to say of it. */
  words: string[];
}

/** A table of it: of pilots, of teams. */
export interface Part {
  title: string;
  columns: Column[];
  rows: Row[];
  /** How many ranks the strip is wide; 0 leaves it out. */
  ranks: number;
  /** So many go on; 0 for all. */
  cut: number;
}

interface WallShown {
  head: components['schemas']['Head'];
  contest: { id: string; name: string };
  /** Whether what is live may be seen, or only what is published. */
  live: boolean;
  boards: Board[];
}

/** The contest and its boards; `inside`: the reader sees what is live in any contest. */
export async function readWall(id: string, inside: () => boolean, signal: AbortSignal): Promise<WallShown> {
  const [contest, list] = await Promise.all([readContest(id, signal), readList(id, signal)]);
  const live = contest.opened === 'live' || inside();
  return {
    head: contest.head,
    contest: { id, name: contest.name },
    live,
    boards: boardsOf(contest, list, live),
  };
}

/** In the order of the contest: each category's programmes, then its standing over them. */
export function boardsOf(contest: Pick<ContestShown, 'categories'>, list: Summary[], live: boolean): Board[] {
  return contest.categories.flatMap((category) => {
    const last = (programme?: string) =>
      list.findLast((one) => one.category.id === category.id && one.programme?.id === programme);
    const programmes = category.programmes.flatMap((one) => ofProgramme(category, one, last(one.id), live));
    if (programmes.length === 0) return [];
    const overall = { of: 'category' as const, id: category.id, title: m.category.title(category.name) };
    const published = last();
    const done = category.programmes.every(isDone);
    if (published && (done || !live)) return [...programmes, board({ ...overall, published })];
    return live && category.programmes.length > 1 ? [...programmes, board(overall)] : programmes;
  });
}

/** What is all flown and published is shown as published. */
function ofProgramme(
  category: Category,
  programme: Programme,
  published: Summary | undefined,
  live: boolean,
): Board[] {
  const { id, name } = programme;
  const one = { of: 'programme' as const, id, title: m.standings.title(category.name, name) };
  if (published && (isDone(programme) || !live)) return [board({ ...one, published })];
  return live && programme.flown > 0 ? [board(one)] : [];
}

const isDone = ({ flown, flights }: Programme) => flights > 0 && flown >= flights;
const board = (of: Omit<Board, 'key'>): Board => ({ ...of, key: `${of.of} ${of.id}` });

export function readBoard(board: Board, signal: AbortSignal): Promise<Content> {
  if (board.published) return readPublished(board, signal);
  return board.of === 'programme' ? readProgramme(board.id, signal) : readOverall(board.id, signal);
}

async function readPublished({ of, id }: Board, signal: AbortSignal): Promise<Content> {
  const { publication } = await readLatest(of, id, signal);
  const { about } = publication;
  const standing = standingOf(publication);
  return {
    parts: [
      ...partOf(groupsOf(standing), { title: '', columns: columnsOf(standing), ranks: ranksOf(publication) }),
      ...partOf(teamGroups(publication), teamPart),
    ],
    words: [m.wall.published(m.published.state[about.state], moment(about.published_at))],
  };
}

async function readProgramme(id: string, signal: AbortSignal): Promise<Content> {
  const { flights, programme } = await readStandings(id, signal);
  return {
    parts: partOf(
      groups(flights).filter(({ key }) => key === 'placed'),
      { title: '', columns: programmeColumns, ranks: ranks(flights), cut: programme.cut },
    ),
    words: wordsOf(flights),
  };
}

async function readOverall(id: string, signal: AbortSignal): Promise<Content> {
  const shown = await readCategory(id, signal);
  return {
    parts: [
      ...partOf(pilots(shown), {
        title: '',
        columns: columns(shown.category),
        ranks: overallRanks(shown.overall),
      }),
      ...partOf(teams(shown), teamPart),
    ],
    words: [m.category.by[shown.category.combine]],
  };
}

const programmeColumns: Column[] = [
  { key: 'score', name: m.standings.score, main: true },
  { key: 'percent', name: m.standings.percent },
];
const teamPart = {
  title: m.wall.teams,
  columns: [{ key: 'total', name: m.category.total, main: true }],
  ranks: 0,
};

/** A part for rows that have a number; none where there are none. */
function partOf(of: Group[], part: Omit<Part, 'rows' | 'cut'> & { cut?: number }): Part[] {
  const rows = of.flatMap((group) => group.rows).filter((row) => row.numbers.some(({ text }) => text !== ''));
  return rows.length > 0 ? [{ cut: 0, ...part, rows }] : [];
}

function wordsOf(flights: Flight[]): string[] {
  const count = (...states: Flight['state'][]) =>
    flights.filter(({ state }) => states.includes(state)).length;
  const flying = flights.filter(({ state }) => state === 'flying').map(({ pilot }) => pilot.name);
  const waiting = count('incomplete', 'unresolved');
  const toFly = count('scheduled');
  return [
    ...(flying.length > 0 ? [m.wall.flying(flying.join(', '))] : []),
    ...(waiting > 0 ? [m.wall.waiting(waiting)] : []),
    ...(toFly > 0 ? [m.wall.toFly(toFly)] : []),
  ];
}
