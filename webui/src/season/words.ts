/** A season's rules in words, and its standings as tables to be saved. */

import type { Table } from '../lib/csv';
import { m } from '../lib/messages/season';
import type { Part, Rules, Standing } from './service';

const words = m.season;

export function rulesInWords(rules: Rules): string[] {
  const said = words.rules;
  return [
    rules.points === 'rank' ? said.rank(rules.table.join(', ')) : said[rules.points],
    ...(rules.points === 'rank' ? [said[rules.ties]] : []),
    said.places,
    rules.best > 0 ? said.best(rules.best) : said.all,
    ...(rules.drop > 0 ? [said.drop(rules.drop)] : []),
    ...(rules.least > 1 ? [said.least(rules.least)] : []),
    rules.tie_break.length > 0 ? said.ties(rules.tie_break.map((one) => words.breaks[one])) : said.shared,
    ...(rules.affiliations.length > 0 ? [said.affiliations(rules.affiliations.join(', '))] : []),
  ];
}

/** The parts that a standing is made of. */
export const partsOf = (parts: Part[], { class: name }: Standing): Part[] =>
  parts.filter((part) => part.class === name);

/** One row a pilot, and of each contest the points and whether they count. */
export function standingTable(parts: Part[], standing: Standing): Table {
  const of = partsOf(parts, standing);
  const head = of.flatMap(({ contest }) => [contest.name, words.counts(contest.name)]);
  return [
    [words.rank, words.pilot, words.affiliation, words.total, ...head],
    ...standing.rows.map((row) => [
      row.rank ?? undefined,
      row.name,
      row.affiliation,
      row.total,
      ...of.flatMap(({ category }) => {
        const result = row.results.find((one) => one.category === category.id);
        return result ? [result.points, result.counts ? words.yes : words.no] : [undefined, undefined];
      }),
    ]),
  ];
}
