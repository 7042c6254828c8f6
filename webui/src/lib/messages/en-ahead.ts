/** The words of what the server draws ahead of the scripts: what varies in them stands in braces. */
import { en } from './en';
import { publishedWords } from './en-published';

const { app, standings, category } = en;
const { published } = publishedWords;

export const aheadWords = {
  where: app.where,
  contests: app.contests,
  programmes: category.programmes,
  published: published.listHeading,
  rank: standings.rank,
  pilot: standings.pilot,
  score: standings.score,
  percent: standings.percent,
  total: category.total,
  strip: standings.strip,
  unranked: standings.unranked,
  in: category.inTeam('{team}'),
  programmeTitle: standings.title('{category}', '{programme}'),
  categoryTitle: category.title('{category}'),
  flightsIn: '{in} of {all} flights in',
  number: 'publication {n}',
  state: published.state,
  noScript: 'Without JavaScript only standings and published results can be read here.',
};
