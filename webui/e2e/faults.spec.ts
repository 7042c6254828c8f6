import { randomUUID } from 'node:crypto';
import { expect, test } from '@playwright/test';
import { seeded } from '../src/lib/fixtures/chance';
import { Network } from '../src/lib/fixtures/network';
import * as make from '../src/line/make';
import { flightsOf, setupOf, type LineFlight } from '../src/line/plan';
import type { Flight, Setup, Sheet } from '../src/line/records/state';
import { officeForAll } from './line';
import { Device } from './storm';

/** What else may change while a tablet is away. Each has a flight of its own. */

let setup: Setup;
let flights: LineFlight[];
let chief: Device;
let judge: string;

const network = new Network(seeded(1));
network.good = true;

const office = officeForAll(8096, async (office) => {
  await office.setUp();
  judge = (await office.judges())[0]?.id ?? '';
  chief = await new Device(office, network, 'chief').pair();
  flights = flightsOf(await chief.plan());
  setup = setupOf(office.contest, flights);
});

const tablet = () => new Device(office, network, 'judge', judge).pair();
const flightOf = (number: number) => flights.find((one) => one.number === number)?.id ?? '';
const sequenceOf = (flight: string) => setup.flights.find((one) => one.flight === flight)?.sequence ?? '';

async function shown(device: Device, flight: string): Promise<{ flight: Flight; sheet: Sheet }> {
  const state = await device.shown(setup, flight);
  const sheet = state?.attempts[0]?.sheets.find((one) => one.judge === judge);
  if (!state || !sheet) throw new Error('the flight has no sheet');
  return { flight: state, sheet };
}

/** Enters grades from the first item on, without sending anything. */
async function enter(device: Device, flight: string, grades: string[]): Promise<void> {
  for (const [i, grade] of grades.entries()) {
    const { sheet } = await shown(device, flight);
    const at = { flight, attempt: 1 };
    await device.enter(make.gradeDraft(at, sequenceOf(flight), sheet, i + 1, { grade, remark: '' }));
  }
}

async function sign(device: Device, flight: string): Promise<void> {
  const { sheet } = await shown(device, flight);
  await device.enter(make.signDraft({ flight, attempt: 1 }, office.contest, sequenceOf(flight), sheet));
}

async function send(device: Device): Promise<void> {
  while ((await device.step()) !== 'resting');
  expect(await device.store.counts(device.id)).toEqual({ waiting: 0, refused: 0 });
}

const whole = ['7.5', '8.0', '8.5', '6.0', '6.5', 'HZ', 'A', '9.0'];

/** Where each record of a seat's cells stands, by item. */
async function standings(flight: string): Promise<string[][]> {
  interface Answer {
    cells: { history: { standing: string }[] }[];
  }
  const { cells } = await office.ask<Answer>(`flights/${flight}/sheets/${judge}`);
  return cells.map(({ history }) => history.map(({ standing }) => standing));
}

test('Postgres is killed with grades on the way: each is stored once', async () => {
  const flight = flightOf(1);
  const device = await tablet();
  await enter(device, flight, whole);
  await office.killDatabase();
  await expect.poll(() => device.step(), { timeout: 30_000 }).toBe('resting');
  expect(await office.sheet(flight, judge)).toEqual({
    state: 'not signed',
    grades: whole,
    records: whole.length,
  });
});

test('a sheet is reopened and changed while its tablet is away: both see the same, and all is kept', async () => {
  const flight = flightOf(2);
  const [away, other] = [await tablet(), await tablet()];
  await enter(away, flight, whole);
  await sign(away, flight);
  await send(away);
  await chief.hear();
  await chief.enter(make.reopenDraft({ flight, attempt: 1 }, judge, 'wrong figure'));
  await send(chief);
  await other.hear();
  await enter(other, flight, ['5.0']);
  await sign(other, flight);
  await send(other);
  const before = (await shown(away, flight)).sheet;
  expect(before.signature.state).toBe('signed'); // it knows nothing of it yet
  await away.hear();
  const after = (await shown(away, flight)).sheet;
  expect(after).toEqual((await shown(other, flight)).sheet);
  expect(after.cells[0]?.grade).toBe('5.0');
  expect(await office.sheet(flight, judge)).toMatchObject({
    state: 'signed',
    grades: ['5.0', ...whole.slice(1)],
  });
  expect((await standings(flight))[0]).toEqual(['replaced', 'head']);
});

test('a device is withdrawn with a full queue: what it delivers is kept, and waits for a decision', async () => {
  const flight = flightOf(3);
  const device = await tablet();
  await enter(device, flight, whole.slice(0, 2));
  await office.ask(`contests/${office.contest}/devices/${device.id}`, undefined, 'DELETE');
  await send(device);
  expect((await office.sheet(flight, judge)).grades).toEqual(whole.map(() => ''));
  expect((await standings(flight)).slice(0, 3)).toEqual([['held'], ['held'], []]);
  await chief.hear();
  const { sheet } = await shown(chief, flight);
  const [held] = sheet.cells[0]?.history ?? [];
  const decided = make.gradeDraft({ flight, attempt: 1 }, sequenceOf(flight), sheet, 1, {
    grade: '7.5',
    remark: '',
  });
  await chief.enter({ ...decided, adopts: [held ?? ''], reason: 'the tablet was withdrawn too soon' });
  await send(chief);
  expect((await office.sheet(flight, judge)).grades[0]).toBe('7.5');
});

test('the office keys the same sheet from paper: what the tablet says too late waits for a decision', async () => {
  const flight = flightOf(4);
  const device = await tablet();
  await enter(device, flight, ['9.0', '9.5']);
  for (let n = 0; n < 2; n++) {
    const entries = whole.map((grade) => ({ grade }));
    await office.ask(`flights/${flight}/paper/${judge}`, { id: randomUUID(), entries, signed: true }, 'PUT');
  }
  await send(device);
  expect(await office.sheet(flight, judge)).toMatchObject({ state: 'signed', grades: whole });
  expect((await standings(flight)).slice(0, 3)).toEqual([['late', 'head'], ['late', 'head'], ['head']]);
});

test('panel and order change meanwhile: no record is worth less', async () => {
  interface Rows {
    programmes: { id: string; panel: string[]; revision: number }[];
  }
  const flight = flightOf(5);
  const device = await tablet();
  await enter(device, flight, whole.slice(0, 3));
  const { programmes } = await office.ask<Rows>(`contests/${office.contest}/setup`);
  const [programme] = programmes;
  const panel = [...(programme?.panel ?? [])].reverse();
  await office.ask(`contests/${office.contest}/setup`, { programmes: [{ ...programme, panel }] }, 'PATCH');
  await send(device);
  expect((await standings(flight)).slice(0, 4)).toEqual([['head'], ['head'], ['head'], []]);
});

test('the sequence changes meanwhile: grades for the former one are kept, and wait for a decision', async () => {
  const flight = flightOf(6);
  const device = await tablet();
  await enter(device, flight, whole.slice(0, 2));
  const programme = flights.find(({ id }) => id === flight)?.programme.id;
  const at = `programmes/${programme}/sequence`;
  const { items, digest, revision } = await office.ask<{
    items: { name: string }[];
    digest: string;
    revision: number;
  }>(at);
  const changed = items.map((item, i) =>
    i === 0 ? { kind: 'figure', k: 10, elements: ['7.41.1.2'], moves: [{ arc: 360 }] } : written(item),
  );
  await office.ask(at, { items: changed, replaces: digest, revision }, 'PUT');
  await send(device);
  expect((await standings(flight)).slice(0, 3)).toEqual([['other-sequence'], ['other-sequence'], []]);
});

/** An item as it is sent: without what the service adds. */
function written(item: object): object {
  const { kind, k, elements, name, moves } = item as Record<string, unknown>;
  return { kind, k, elements, name, ...(moves ? { moves } : {}) };
}
