import { describe, expect, it } from 'vitest';
import { fitted, readChoice, writeChoice, type Choice } from './choice';
import { cardSequence, material } from './fixture';
import { pages, withoutSequence, type OrderPage, type Page } from './pages';

const usual: Choice = {
  kind: 'sequence',
  wind: 'right',
  flights: 'every',
  seat: 'every',
  stack: 'flight',
  names: 'shown',
  paper: 'a4',
};
const printed = (change: Partial<Choice>, all = material()) => pages(all, { ...usual, ...change });
const one = (n: number) => material({ shared: cardSequence(n) });
const numbers = (page: Page) => ('items' in page ? page.items.map(({ number }) => number) : []);
const upTo = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

describe.each(['a4', 'letter'] as const)('on %s', (paper) => {
  it.each([10, 15])('a sequence of %i figures is one page, whatever the card', (n) => {
    const all = one(n);
    expect(printed({ paper, flights: 'one' }, all).map(numbers)).toEqual([upTo(n)]);
    expect(printed({ paper, flights: 'one', kind: 'caller' }, all).map(numbers)).toEqual([upTo(n)]);
    const sheet = printed({ paper, flights: '2', seat: '1', kind: 'grades' }, all);
    expect(sheet.map(numbers)).toEqual([upTo(n + 1)]);
  });

  it.each(['sequence', 'caller', 'grades'] as const)(
    '40 items are shared over pages of a %s card',
    (kind) => {
      const shared = printed({ paper, flights: kind === 'grades' ? '2' : 'one', seat: '1', kind }, one(39));
      expect(shared.length).toBeGreaterThan(1);
      expect(shared.flatMap(numbers)).toEqual(upTo(kind === 'grades' ? 40 : 39));
      const sizes = shared.map((page) => numbers(page).length);
      expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      expect(shared.map(({ part, parts }) => [part, parts])).toEqual(
        upTo(shared.length).map((part) => [part, shared.length]),
      );
    },
  );

  it('a running order of 80 flights goes on counting on its second page', () => {
    const flights = upTo(80).flatMap((number) =>
      material()
        .flights.slice(0, 1)
        .map((flight) => ({ ...flight, id: `f${number}`, number })),
    );
    const order = printed({ paper, kind: 'order' }, material({ flights })) as OrderPage[];
    expect(order.flatMap((page) => page.flights)).toEqual(flights);
    expect(order.map(({ from }) => from)).toEqual(order.map((page) => page.flights[0]?.number));
    expect(order.length).toBeGreaterThan(1);
  });
});

it('a caller reads fewer figures in larger type', () => {
  const size = (n: number) => {
    const [page] = printed({ flights: 'one', kind: 'caller' }, one(n));
    return page?.kind === 'caller' ? page.size : 0;
  };
  expect(size(5)).toBeGreaterThan(size(10));
  expect(size(10)).toBeGreaterThanOrEqual(size(39));
});

describe('flights', () => {
  const flights = (change: Partial<Choice>) =>
    printed(change).map((page) => (page.kind === 'order' ? '' : page.flight?.number));

  it('who has withdrawn gets a card when asked for by number', () => {
    expect(flights({})).toEqual([1, 2, 4]);
    expect(flights({ flights: '3' })).toEqual([3]);
  });

  it('those still to fly are the ones called or waiting', () => {
    expect(flights({ flights: 'to-fly' })).toEqual([2, 4]);
  });

  it('both winds lie together', () => {
    const both = printed({ wind: 'both', flights: '1' });
    expect(both.map((page) => page.kind === 'sequence' && page.wind)).toEqual(['right', 'left']);
  });

  it('a free programme prints each flight its own sequence, and names those without one', () => {
    const { flights: four, shared, ...rest } = material();
    const own = four.map((flight, i) => (i === 1 ? flight : { ...flight, sequence: cardSequence(5 + i) }));
    const free = { ...rest, flights: own };
    expect(shared).toBeDefined();
    expect(printed({}, free).map((page) => numbers(page).length)).toEqual([5, 8]);
    expect(withoutSequence(free, usual).map(({ number }) => number)).toEqual([2]);
    expect(withoutSequence(material(), usual)).toEqual([]);
  });
});

describe('grade sheets', () => {
  const seats = (change: Partial<Choice>) =>
    printed({ kind: 'grades', ...change }).map((page) =>
      page.kind === 'grades' ? `${page.flight?.number}/${page.seat.number}` : '',
    );

  it('are sorted by flight, or in a stack for each seat', () => {
    expect(seats({ flights: 'to-fly' })).toEqual(['2/1', '2/2', '2/3', '4/1', '4/2', '4/3']);
    expect(seats({ flights: 'to-fly', stack: 'seat' })).toEqual(['2/1', '4/1', '2/2', '4/2', '2/3', '4/3']);
  });

  it('may be of one seat', () => {
    expect(seats({ seat: '2' })).toEqual(['1/2', '2/2', '4/2']);
  });

  it('need a panel', () => {
    expect(printed({ kind: 'grades' }, material({ panel: [] }))).toEqual([]);
  });

  it('end with the overall marks', () => {
    const [sheet] = printed({ kind: 'grades' });
    expect(sheet?.kind === 'grades' && sheet.items.at(-1)?.overall).toBe(true);
  });
});

it('every page has a key of its own', () => {
  const keys = printed({ kind: 'grades' }, one(39)).map(({ key }) => key);
  expect(new Set(keys).size).toBe(keys.length);
});

describe('a choice', () => {
  const fits = (change: Partial<Choice>, all = material()) => fitted({ ...usual, ...change }, all);

  it('is read from the address that it was written to', () => {
    const choice: Choice = {
      ...usual,
      kind: 'grades',
      wind: 'left',
      flights: '4',
      seat: '2',
      paper: 'letter',
    };
    expect(readChoice(writeChoice(choice), usual)).toEqual(choice);
  });

  it('is the usual one where an address means nothing', () => {
    expect(readChoice('?kind=poster&wind=up&paper=a0&seat=', { ...usual, seat: 'every' })).toEqual({
      ...usual,
      seat: '',
    });
    expect(fits({ seat: '', flights: '99' })).toEqual(usual);
  });

  it('of one card for all needs one sequence, and no seats', () => {
    const { shared, ...free } = material();
    expect(shared).toBeDefined();
    expect(fits({ flights: 'one' }).flights).toBe('one');
    expect(fits({ flights: 'one' }, free).flights).toBe('every');
    expect(fits({ flights: 'one', kind: 'grades' }).flights).toBe('every');
  });

  it('of both winds is for sequence cards', () => {
    expect(fits({ wind: 'both', kind: 'grades' }).wind).toBe('right');
  });

  it('has no running order of one flight', () => {
    expect(fits({ kind: 'order' }, material({ whole: false })).kind).toBe('sequence');
  });
});
