import { expect, it } from 'vitest';
import { counts, readOut } from '../caller/calls.svelte';
import type { PlannedDevice, PlannedProgramme } from '../plan';
import type { LineRecord } from '../records/record';
import type { Sheet } from '../records/state';
import type { LiveFlight } from '../view';
import { flownMs, minutes } from './clock';
import { onTheLine, presentFlight, toCall } from './present';
import { seatsOf } from './seats';

const flights = (...statuses: string[]) =>
  statuses.map((status, i) => ({ flight: { number: i + 1 }, state: { status } })) as unknown as LiveFlight[];
const numbers = (list: LiveFlight[]) => list.map(({ flight }) => flight.number);

it('works on the flight in the air, then on what is to be settled, then on the next', () => {
  expect(presentFlight(flights('landed', 'flying', ''))?.flight.number).toBe(2);
  expect(presentFlight(flights('landed', 'called', ''))?.flight.number).toBe(2);
  expect(presentFlight(flights('landed', 'interrupted', ''))?.flight.number).toBe(1);
  expect(presentFlight(flights('closed', '', ''))?.flight.number).toBe(2);
  expect(presentFlight(flights('closed', 'withdrawn'))).toBeUndefined();
});

it('calls on in running order, those left out last', () => {
  const list = flights('closed', '', 'flying', '', '');
  expect(numbers(onTheLine(list))).toEqual([3]);
  expect(numbers(toCall(list))).toEqual([4, 5, 2]);
  expect(numbers(toCall(flights('', '')))).toEqual([1, 2]);
});

const said = (status: string, entered_at: string, attempt = 1): LineRecord => ({
  ...{ seq: 1, id: entered_at, kind: 'status', flight: 'F', attempt },
  ...{ status, entered_at },
});

it('times a flight from when it was said to be in the air until it is down', () => {
  const at = (time: string) => Date.parse(`2026-06-12T10:${time}Z`);
  const records = [said('called', '2026-06-12T10:00:00Z'), said('flying', '2026-06-12T10:01:00Z')];
  expect(flownMs(records.slice(0, 1), 'F', 1, at('02:00'))).toBeUndefined();
  expect(flownMs(records, 'F', 1, at('02:07'))).toBe(67_000);
  // that the wind has turned says nothing of the time
  records.push(said('flying', '2026-06-12T10:02:00Z'), said('landed', '2026-06-12T10:05:00Z'));
  expect(flownMs(records, 'F', 1, at('09:00'))).toBe(240_000);
  expect(flownMs(records, 'F', 2, at('09:00'))).toBeUndefined();
  expect([minutes(0), minutes(67_999), minutes(600_000)]).toEqual(['0:00', '1:07', '10:00']);
});

it('ends a flight’s time when it is down, though the clock was set back meanwhile', () => {
  const at = (time: string) => Date.parse(`2026-06-12T${time}Z`);
  const flying = said('flying', '2026-06-12T11:00:00Z');
  const landed = { ...said('landed', '2026-06-12T10:04:00Z'), replaces: [flying.id] };
  expect(flownMs([flying], 'F', 1, at('10:02:00'))).toBeUndefined();
  expect(flownMs([landed, flying], 'F', 1, at('12:00:00'))).toBeUndefined();
  const circle = { ...flying, replaces: [landed.id] };
  expect(flownMs([landed, circle], 'F', 1, at('11:01:00'))).toBe(60_000);
});

it('says which tablet is silent, by the clock of the service', () => {
  const panel = ['A', 'B', 'C'].map((id, i) => ({ number: i + 1, judge: { id, name: id } }));
  const cells = ['7.0', '', '8.0', ''].map((grade, i) => ({ item: i + 1, grade }));
  const sheets = panel.map(({ judge }) => ({ judge: judge.id, cells }) as unknown as Sheet);
  const device = (judge: string, minute: number, unsent = 0) =>
    ({
      role: 'judge',
      judge: { id: judge },
      last_contact: `2026-06-12T10:0${minute}:00Z`,
      unsent,
    }) as PlannedDevice;
  const seats = seatsOf({ panel } as PlannedProgramme, sheets, [
    device('A', 5, 2),
    device('B', 4),
    device('A', 1),
  ]);
  expect(seats.map(({ tablet }) => tablet)).toEqual([
    { state: 'here', unsent: 2, count: 2 },
    { state: 'silent', unsent: 0, count: 1 },
    { state: 'none', unsent: 0, count: 0 },
  ]);
  expect([seats[0]?.entered, seats[0]?.at]).toEqual([2, 4]);
});

it('lets a call be ahead of the judge until the sheet gets there', () => {
  expect([4, 5, 6, 7].map((judges) => counts({ at: 6, from: 4 }, judges))).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect([4, 5].map((judges) => counts({ at: 2, from: 4 }, judges))).toEqual([true, false]);
  expect(counts({ at: 3, from: undefined }, undefined)).toBe(true);
});

it('reads out the flight that was chosen until it is over, and after one that was left the next called on', () => {
  const list = (...statuses: string[]) =>
    statuses.map((status, i) => ({
      flight: { id: `F${i + 1}` },
      state: { status },
    })) as unknown as LiveFlight[];
  const read = (...of: Parameters<typeof readOut>) => readOut(...of)?.flight.id;
  expect(read(list('called', ''))).toBe('F1');
  expect(read(list('called', ''), 'F2')).toBe('F2');
  expect(read(list('flying', 'closed'), 'F2')).toBe('F1');
  expect(read(list('landed', 'called'), 'F1', undefined)).toBe('F1');
  expect(read(list('landed', ''), undefined, 'F1 1')).toBeUndefined();
  expect(read(list('landed', 'called'), undefined, 'F1 1')).toBe('F2');
});

it('reads out a flight that was left when it is flown again', () => {
  const again = [{ flight: { id: 'F1' }, state: { status: 'called', counting: 2 } }];
  expect(readOut(again as unknown as LiveFlight[], undefined, 'F1 1')?.flight.id).toBe('F1');
});
