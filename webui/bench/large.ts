import { readFileSync } from 'node:fs';

/** Asked for is a first meaningful paint under a second for every page of a contest of so many pilots. */
export const pilots = 120;

/** An invented contest of the cases, with each of its pilots several times. */
export function large() {
  const bundle = JSON.parse(readFileSync('../testdata/cases/101.bundle.json', 'utf8'));
  const [category] = bundle.categories;
  const [programme] = category.programmes;
  const some = bundle.pilots.length;
  const named = (i: number) => ({ ...bundle.pilots[i % some], id: `p${i}`, name: `Pilot ${i}` });
  bundle.pilots = Array.from({ length: pilots }, (_, i) => named(i));
  category.entries = bundle.pilots.map(({ id }: { id: string }) => ({ pilot: id, ranked: true }));
  const flown = programme.flights.filter((one: { status: string }) => one.status === 'flown');
  programme.flights = bundle.pilots.map(({ id }: { id: string }, i: number) => ({
    ...flown[i % flown.length],
    pilot: id,
  }));
  const combine = { by: 'sum-percent' };
  return { ...bundle, categories: [{ ...category, combine, programmes: [programme] }] };
}
