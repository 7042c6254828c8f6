import { expect, it } from 'vitest';
import * as make from './make';
import { check } from './records/check';
import { isUuid } from './records/scale';
import type { LineRecord, Stored } from './records/record';
import { resolve } from './records/resolve';
import type { Flight, Setup, Sheet } from './records/state';
import type { Draft } from './store/store';

const [contest, flight, one, two] = [make.newId(), make.newId(), make.newId(), make.newId()];
const sequence = 'a'.repeat(64);
const setup: Setup = { contest, flights: [{ flight, sequence, items: 2, panel: [one, two] }] };
const at = { flight, attempt: 1 };

/** A line of which everybody hears everything at once. */
class Line {
  records: Stored[] = [];

  say(role: string, draft: Draft, seat?: string): void {
    const author = { role, ...(seat ? { seat } : {}), device: role };
    const record: Stored = { ...draft, seq: this.records.length + 1, author };
    expect(check(record), JSON.stringify(record)).toEqual([]);
    this.records.push(record);
  }

  get flight(): Flight {
    return resolve(setup, this.records).flights[0] as Flight;
  }

  sheet(seat: number): Sheet {
    return this.flight.attempts.at(-1)?.sheets[seat] as Sheet;
  }

  grade(item: number, grade: string, remark = ''): void {
    const given = { grade, remark };
    this.say('judge', make.gradeDraft(at, sequence, this.sheet(0), item, given), one);
  }

  sign(): void {
    this.say('judge', make.signDraft(at, contest, sequence, this.sheet(0)), one);
  }
}

it('makes ids that are UUIDs of version 7 and sort by time', () => {
  const id = make.newId(Date.UTC(2026, 5, 12));
  expect(isUuid(id)).toBe(true);
  expect(id.charAt(14)).toBe('7');
  expect('89ab').toContain(id.charAt(19));
  expect(make.newId(1) < make.newId(2)).toBe(true);
  // RFC 9562, appendix A.6: 0x017F22E279B0 is 1645557742000 ms
  expect(make.newId(1645557742000).startsWith('017f22e2-79b0-7')).toBe(true);
});

it('writes the time by the device’s clock', () => {
  const at = new Date('2026-06-12T08:14:03.120Z');
  expect(new Date(make.localTime(at))).toEqual(at);
  expect(make.localTime(at)).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.120[+-]\d\d:\d\d$/);
});

it('grades, corrects, takes back and signs', () => {
  const line = new Line();
  line.grade(1, '7.5', '  flat, spa\u0308t ');
  line.grade(1, '8.0');
  line.grade(2, 'HZ');
  line.grade(2, '');
  expect(line.sheet(0).cells.map(({ grade }) => grade)).toEqual(['8.0', '']);
  line.grade(2, '6.5', 'flat');
  line.sign();
  expect(line.sheet(0).signature.state).toBe('signed');
  expect(line.records[0]?.remark).toBe('flat, spät'.normalize('NFC'));
});

it('opens a sheet again, and the next signature knows it', () => {
  const line = new Line();
  line.grade(1, '7.5');
  line.grade(2, '7.0');
  line.sign();
  line.say('chief', make.reopenDraft(at, one, 'figure 2 was flown again'));
  expect(line.sheet(0).signature.state).toBe('reopened');
  line.grade(2, '6.0');
  line.sign();
  expect(line.sheet(0).signature.state).toBe('signed');
  expect(line.sheet(0).cells[1]?.grade).toBe('6.0');
});

it('calls, turns the wind and closes a flight', () => {
  const line = new Line();
  line.say('chief', make.statusDraft(line.flight, 1, { status: 'called', wind: 'left' }));
  line.say('chief', make.statusDraft(line.flight, 1, { status: 'flying' }));
  expect([line.flight.status, line.flight.wind]).toEqual(['flying', 'left']);
  line.grade(1, '7.5');
  line.grade(2, '7.0');
  line.sign();
  line.say('chief', make.absentDraft(at, line.sheet(1), true));
  line.say('chief', make.statusDraft(line.flight, 1, { status: 'closed' }, line.records));
  expect(line.flight.blocks).toEqual([]);
  line.grade(1, '9.0');
  expect(line.flight.blocks.map(({ state }) => state)).toEqual(['closed']);
  line.say('chief', make.asideDraft(at, [(line.records.at(-1) as LineRecord).id], 'tapped by mistake'));
  expect(line.flight.blocks).toEqual([]);
});

it('flies a flight again, and keeps the first attempt', () => {
  const line = new Line();
  line.grade(1, '7.5');
  line.say(
    'chief',
    make.statusDraft(line.flight, 1, { status: 'interrupted', reason: 'a glider in the box' }),
  );
  line.say('chief', make.statusDraft(line.flight, 2, { status: 'called' }));
  expect(line.flight.counting).toBe(2);
  expect(line.flight.attempts.map(({ attempt }) => attempt)).toEqual([1, 2]);
});

it('rules, and takes a ruling and a penalty back', () => {
  const line = new Line();
  const rulings = () => line.flight.attempts[0]?.rulings ?? [];
  line.say('chief', make.rulingDraft(at, 1, { ruling: 'hard-zero-confirmed' }, []));
  line.say(
    'chief',
    make.rulingDraft(at, 1, { ruling: 'hard-zero-overruled', reason: 'the film' }, rulings()[0]?.heads ?? []),
  );
  expect(rulings().map(({ ruling }) => ruling)).toEqual(['hard-zero-overruled']);
  line.say('chief', make.rulingDraft(at, 1, { ruling: 'hard-zero-withdrawn' }, rulings()[0]?.heads ?? []));
  expect(rulings()).toEqual([]);
  const penalties = () => line.flight.attempts[0]?.penalties ?? [];
  const low = { kind: 'low', points: 100 };
  line.say('chief', make.penaltyDraft(at, { ...low, count: 1 }, line.flight.attempts[0]));
  line.say('chief', make.penaltyDraft(at, { ...low, count: 2 }, line.flight.attempts[0]));
  expect(penalties().map(({ count }) => count)).toEqual([2]);
  line.say('chief', make.penaltyDraft(at, { ...low, count: 0 }, line.flight.attempts[0]));
  expect(penalties()).toEqual([]);
});

it('counts a grade that was held, as it was made', () => {
  const line = new Line();
  const draft = make.gradeDraft(at, sequence, line.sheet(0), 1, { grade: '7.5', remark: 'flat' });
  line.records.push({
    ...draft,
    seq: 1,
    author: { role: 'judge', seat: one, device: 'gone', withdrawn: true },
  });
  expect(line.sheet(0).cells[0]?.grade).toBe('');
  const [held] = line.records;
  line.say('chief', make.adoptDraft(at, sequence, line.sheet(0), held as LineRecord, 'entered in time'));
  expect(line.sheet(0).cells[0]).toMatchObject({ grade: '7.5', remark: 'flat' });
  expect(line.flight.blocks.filter(({ cause }) => cause === 'record')).toEqual([]);
});

it('moves a signed sheet to the flight that was meant, and keeps both', () => {
  const line = new Line();
  line.grade(1, '7.5', 'flat');
  line.grade(2, 'HZ');
  line.sign();
  const meant = make.newId();
  const both: Setup = {
    contest,
    flights: [...setup.flights, { flight: meant, sequence, items: 2, panel: [one, two] }],
  };
  const sheet = (i: number) => resolve(both, line.records).flights[i]?.attempts[0]?.sheets[0] as Sheet;
  const sheets = { from: sheet(0), into: sheet(1) };
  for (const draft of make.moveDrafts(
    { flight: meant, attempt: 1 },
    contest,
    sequence,
    sheets,
    'wrong flight',
  )) {
    line.say('chief', draft);
  }
  expect(sheet(1).cells.map(({ grade, remark }) => [grade, remark])).toEqual([
    ['7.5', 'flat'],
    ['HZ', ''],
  ]);
  expect(sheet(1).signature.state).toBe('signed');
  expect(sheet(0).cells.map(({ grade }) => grade)).toEqual(['', '']);
  expect(sheet(0).signature.state).toBe('unsigned');
  expect(line.records).toHaveLength(6);
});
