/** Results as tables to be saved, with all that is known and not only what is shown. */

import type { Field, Table } from '../lib/csv';
import { m } from '../lib/messages/published';
import { itemName } from './items';
import type { Certainty, Item, SeatTotal } from './types';

const heads = m.table;

/** A pilot's place as a table tells it. */
export interface Place {
  pilot: { name: string; affiliation: string; aircraft: string };
  team?: string | undefined;
  number?: number | undefined;
  state?: string | undefined;
  ranked?: boolean | undefined;
  rank?: number | undefined;
  score?: number | undefined;
  percent?: number | undefined;
  certainty?: Certainty | undefined;
}

/** The standing of a programme. */
export function standingTable(places: Place[]): Table {
  return [
    [...whoHeads(), heads.number, heads.state, heads.score, heads.percent, ...sureHeads()],
    ...places.map((p) => [...who(p), p.number, p.state, p.score, p.percent, ...sureOf(p.certainty)]),
  ];
}

/** A pilot's place over programmes: by their ids what each gave. */
interface OverallPlace extends Place {
  scores: Map<string, { score: number; percent: number }>;
}

/** The standing of a category over its programmes. */
export function overallTable(programmes: { id: string; name: string }[], places: OverallPlace[]): Table {
  const named = programmes.flatMap(({ name }) => [name, heads.percentOf(name)]);
  return [
    [...whoHeads(), heads.team, ...named, heads.total, ...sureHeads()],
    ...places.map((p) => [
      ...who(p),
      p.team,
      ...programmes.flatMap(({ id }) => [p.scores.get(id)?.score, p.scores.get(id)?.percent]),
      p.score,
      ...sureOf(p.certainty),
    ]),
  ];
}

export function teamTable(teams: { team: string; total: number; rank: number; pilots: string[] }[]): Table {
  return [
    [heads.rank, heads.team, heads.total, heads.members],
    ...teams.map(({ team, total, rank, pilots }) => [rank, team, total, pilots.join('; ')]),
  ];
}

/** A sheet: a row for each figure, for each seat what it gave and what became of it. */
export function sheetTable(items: Item[], seats: SeatTotal[]): Table {
  const perSeat = seats.flatMap(({ seat }) => [
    heads.grade(seat),
    heads.used(seat),
    heads.trust(seat),
    heads.why(seat),
  ]);
  return [
    [
      heads.figure,
      heads.name,
      heads.numbers,
      heads.k,
      ...perSeat,
      heads.panel,
      heads.points,
      heads.against,
      heads.remarks,
    ],
    ...items.map((item) => [
      item.item.number,
      itemName(item),
      item.item.elements.join(' '),
      item.item.k,
      ...seats.flatMap(({ seat }) => cellOf(item, seat)),
      item.value,
      item.points,
      item.against,
      item.remarks.map(({ seat, text }) => `${seat}: ${text}`).join('; '),
    ]),
  ];
}

function cellOf(item: Item, seat: number): Field[] {
  const cell = item.cells.find((one) => one.seat === seat);
  const given = cell?.grade ?? '';
  const grade = /^\d/.test(given) ? Number(given) : given;
  return [grade, cell?.used, cell?.weight, cell?.reason];
}

// When they are asked for: a reader's own words come after this has loaded.
const whoHeads = () => [heads.rank, heads.ranked, heads.pilot, heads.affiliation, heads.aircraft];
const sureHeads = () => [heads.low, heads.high, heads.first, heads.podium];

function who({ rank, ranked = true, pilot }: Place): Field[] {
  return [rank, ranked ? heads.yes : heads.no, pilot.name, pilot.affiliation, pilot.aircraft];
}

function sureOf(certainty: Certainty | undefined): Field[] {
  return [certainty?.rank_low, certainty?.rank_high, certainty?.p_first, certainty?.p_podium];
}
