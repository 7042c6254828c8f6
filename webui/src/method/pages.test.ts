import { cleanup, render, screen } from '@testing-library/svelte';
import { afterEach, expect, it } from 'vitest';
import Rows from './Rows.svelte';
import type { Working } from './working';

afterEach(cleanup);

it('says of every grade that did not count as given what it was used as', () => {
  const grades = [
    { grade: 'HZ', used: 0, counts: true },
    { grade: '9.0', used: 0, counts: true },
    { grade: '8.0', used: 8, counts: true },
    { grade: 'A', used: 0, counts: false },
  ];
  const shown = {
    decimals: 2,
    factors: 1,
    method: { name: 'mean', fallback: '', seats: 4 },
    seats: [],
    sum: 0,
    items: [{ number: 1, name: 'loop', k: 10, how: 'mean', value: 0, points: 0, grades }],
  } as unknown as Working;
  render(Rows, { shown });
  const [, ...cells] = screen.getAllByRole('row')[1]?.querySelectorAll('td') ?? [];
  expect(cells.slice(2).map((cell) => cell.textContent?.replace(/\s+/g, ' ').trim())).toEqual([
    'HZ used as 0.0',
    '9.0 used as 0.0',
    '8.0',
    '(A)',
  ]);
});
