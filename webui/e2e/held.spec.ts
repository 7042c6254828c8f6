import { expect, test, type Page } from '@playwright/test';
import { grade, officeForAll, paired, tap, word } from './line';

const office = officeForAll(8101);

const atOffice = (page: Page) => expect(word(page)).toHaveText('all at the office', { timeout: 30_000 });

const given = ['7.5', '8.0', '6.5', '7.0', '9.0', '8.5', '7.0', '8.0'];

test('a sheet that was entered for the wrong flight goes over to the right one', async ({ browser }) => {
  const [first] = await office.judges();
  const seat = first?.id ?? '';
  const [from, to] = [await office.flight(2), await office.flight(3)];
  const judge = await paired(browser, office, 'judge', seat);
  await judge.getByRole('button', { name: /^2\b/ }).click();
  await expect(judge.getByRole('heading', { name: 'Flight 2' })).toBeVisible();
  await grade(judge, given);
  await tap(judge, 'Sign flight 2');
  await expect(judge.getByText('Flight 2 is signed.')).toBeVisible();
  await atOffice(judge);

  const chief = await paired(browser, office, 'chief');
  await tap(chief, 'Another flight');
  await tap(chief, '2');
  await expect(chief.getByRole('heading', { name: 'Flight 2' })).toBeVisible();
  await expect(chief.getByRole('row', { name: /^1 / })).toContainText('7.5');
  await chief.getByRole('button', { name: /^Seat 1/ }).click();
  await tap(chief, 'Sheet of another flight');
  await tap(chief, 'It is of flight 3');
  await tap(chief, 'entered for the wrong flight');
  await tap(chief, 'Record it');
  await expect(chief.getByRole('row', { name: /^1 / })).not.toContainText('7.5');
  await tap(chief, 'Another flight');
  await tap(chief, '3');
  await expect(chief.getByRole('heading', { name: 'Flight 3' })).toBeVisible();
  await expect(chief.getByRole('row', { name: /^1 / })).toContainText('7.5');
  await atOffice(chief);
  expect((await office.sheet(to, seat)).grades).toEqual(given);
  const left = await office.sheet(from, seat);
  expect(left.grades).toEqual(given.map(() => ''));
  expect(left.records).toBe(given.length); // they are kept, and count nothing
  for (const page of [chief, judge]) await page.context().close();
});

test('grades of a tablet that was withdrawn are held, until the chief judge has them count', async ({
  browser,
}) => {
  const [, , seat] = await office.judges();
  const flight = await office.flight(1);
  const chief = await paired(browser, office, 'chief');
  await tap(chief, 'Call flight 1 on');
  const judge = await paired(browser, office, 'judge', seat?.id);
  await expect(judge.getByRole('heading', { name: 'Flight 1' })).toBeVisible();
  await judge.context().setOffline(true);
  await grade(judge, given.slice(0, 2));
  await expect(word(judge)).toHaveText('2 waiting');
  const { devices } = await office.ask<{ devices: { id: string; judge?: { id: string } }[] }>(
    `contests/${office.contest}/devices`,
  );
  const tablet = devices.find(({ judge }) => judge?.id === seat?.id);
  await office.ask(`contests/${office.contest}/devices/${tablet?.id}`, undefined, 'DELETE');
  await judge.context().setOffline(false);

  await expect(chief.getByRole('heading', { name: 'Needs you' })).toBeVisible({ timeout: 30_000 });
  expect((await office.sheet(flight, seat?.id ?? '')).grades.slice(0, 2)).toEqual(['', '']);
  await tap(chief, 'Count them after all');
  await tap(chief, 'tablet was withdrawn too soon');
  await tap(chief, 'Record it');
  await expect(chief.getByRole('row', { name: /^1 / })).toContainText('7.5');
  await expect(chief.getByRole('row', { name: /^2 / })).toContainText('8.0');
  await expect(chief.getByRole('button', { name: 'Count them after all' })).toHaveCount(0);
  await atOffice(chief);
  expect((await office.sheet(flight, seat?.id ?? '')).grades.slice(0, 2)).toEqual(['7.5', '8.0']);
  for (const page of [chief, judge]) await page.context().close();
});
