/** The ways down to what a page is about, as the crumbs above it show them. */

import { to } from './router';

interface Named {
  id: string;
  name: string;
}

export interface Way {
  name: string;
  href: string;
}

/** From a contest to a category or a programme of it. */
export function waysTo(of: { contest: Named; category?: Named; programme?: Named }): Way[] {
  const { contest, category, programme } = of;
  return [
    { name: contest.name, href: to.contest(contest.id) },
    ...(category ? [{ name: category.name, href: to.category(category.id) }] : []),
    ...(programme ? [{ name: programme.name, href: to.programme(programme.id) }] : []),
  ];
}
