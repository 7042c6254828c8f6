/** The words of what the server draws ahead of the scripts, in German. */
import words from './de';
import publishedWords from './de-published';
import type { aheadWords } from './en-ahead';

const { app, standings, category } = words;
const { published } = publishedWords;

const inGerman: typeof aheadWords = {
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
  flightsIn: '{in} von {all} Flügen gewertet',
  number: 'Veröffentlichung {n}',
  state: published.state,
  noScript: 'Ohne JavaScript sind hier nur Ranglisten und veröffentlichte Ergebnisse lesbar.',
};
export default inGerman;
