/**
 * The words of what the server draws ahead of the scripts, in every language; the build
 * writes them for it. What varies in them stands in braces.
 */
import type { Language } from '../language';
import de from './de';
import deAhead from './de-ahead';
import dePublished from './de-published';
import { en } from './en';
import { aheadWords } from './en-ahead';
import { publishedWords } from './en-published';

/** What it says as the pages do, and its own. */
const drawn = (
  { app, standings, category }: typeof en,
  { published }: typeof publishedWords,
  own: typeof aheadWords,
) => ({
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
  state: published.state,
  ...own,
});

export const ahead: Record<Language, ReturnType<typeof drawn>> = {
  en: drawn(en, publishedWords, aheadWords),
  de: drawn(de, dePublished, deAhead),
};
