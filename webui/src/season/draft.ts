/** A season's set-up as it is typed, and what is sent of it. */

import type { Change, Rules, Season } from './service';

export type Break = Rules['tie_break'][number];

export interface Source {
  category: string;
  contestName: string;
  categoryName: string;
  class: string;
}

export interface Draft {
  name: string;
  points: Rules['points'];
  table: string;
  ties: Rules['ties'];
  best: string;
  drop: string;
  least: string;
  breaks: (Break | '')[];
  affiliations: string;
  parts: Source[];
}

const places = 4;

export function draftOf({ name, rules, parts }: Season): Draft {
  return {
    name,
    points: rules.points,
    table: rules.table.join(' '),
    ties: rules.ties,
    best: String(rules.best),
    drop: String(rules.drop),
    least: String(rules.least),
    breaks: Array.from({ length: places }, (_, i) => rules.tie_break[i] ?? ''),
    affiliations: rules.affiliations.join('\n'),
    parts: parts.map((part) => ({
      category: part.category.id,
      contestName: part.contest.name,
      categoryName: part.category.name,
      class: part.class,
    })),
  };
}

/** What is no number is sent as one that the service refuses at its place. */
const whole = (text: string): number => (/^\d+$/.test(text.trim()) ? Number(text) : -1);

export function changeOf(draft: Draft, revision: number): Change {
  const lines = (text: string) => text.split(/\r?\n/).map((line) => line.trim());
  const table = draft.points === 'rank' ? draft.table.trim().split(/[\s;]+/) : [];
  return {
    name: draft.name.trim(),
    revision,
    parts: draft.parts.map((part) => ({ category: part.category, class: part.class.trim() })),
    rules: {
      points: draft.points,
      table: table
        .filter((text) => text !== '')
        .map((text) => (/^\d+([.,]\d+)?$/.test(text) ? Number(text.replace(',', '.')) : -1)),
      ties: draft.ties,
      best: whole(draft.best),
      drop: whole(draft.drop),
      least: whole(draft.least),
      tie_break: draft.breaks
        .filter((one): one is Break => one !== '')
        .filter((one, i, all) => all.indexOf(one) === i),
      affiliations: lines(draft.affiliations).filter((line) => line !== ''),
    },
  };
}
