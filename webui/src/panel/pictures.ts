/** What is drawn of judges and panels. Where colour would tell two things apart, their form does too. */

import type { PlotOptions } from '@observablehq/plot';
import type * as Plots from '../chart/plot';
import { m } from '../lib/messages/panel';
import { fixed, signed } from '../lib/numbers';
import type { Judge, Panel } from './service';

type Draw = (marks: typeof Plots, width: number) => PlotOptions;
interface Picture {
  draw: Draw;
  table: { head: string[]; rows: (string | number)[][] };
}

const step = 0.5;
const ink = 'var(--ink)';
const own = 'var(--sure)';
const soft = 'var(--sure-soft)';

/** Counts by half points in per cent of all. */
function shares(counts: number[]): { grade: number; share: number }[] {
  const all = counts.reduce((sum, n) => sum + n, 0);
  return counts.map((n, i) => ({ grade: i * step, share: all === 0 ? 0 : (100 * n) / all }));
}

/** How often a judge gave each grade, beside all seats together. */
export function givenPicture(given: number[], panel: number[]): Picture {
  const bars = shares(given);
  const line = shares(panel);
  const least = Math.max(
    0,
    Math.min(...[...bars, ...line].filter(({ share }) => share > 0).map(({ grade }) => grade)) - 1,
  );
  const shown = (all: typeof bars) => all.filter(({ grade }) => grade >= Math.floor(least));
  return {
    draw: ({ rectY, lineY, dot, ruleY }, width) => ({
      height: 240,
      marginLeft: 44,
      marginBottom: 44,
      marginTop: 28,
      x: {
        label: m.judge.grade,
        domain: [Math.floor(least) - 0.3, 10.3],
        ticks: width < 400 ? 5 : 10,
        tickFormat: (v: number) => String(v),
      },
      y: { label: m.judge.share, grid: true, nice: true },
      marks: [
        rectY(shown(bars), {
          x1: (d) => d.grade - 0.2,
          x2: (d) => d.grade + 0.2,
          y: 'share',
          fill: soft,
          stroke: own,
          strokeWidth: 1.5,
        }),
        lineY(shown(line), { x: 'grade', y: 'share', stroke: ink, strokeWidth: 2, curve: 'monotone-x' }),
        dot(shown(line), { x: 'grade', y: 'share', fill: ink, r: 2.5 }),
        ruleY([0], { stroke: ink }),
      ],
    }),
    table: {
      head: m.judge.givenHead,
      rows: shown(bars).map(({ grade, share }, i) => [
        fixed(grade, 1),
        `${fixed(share, 1)} %`,
        `${fixed(shown(line)[i]?.share, 1)} %`,
      ]),
    },
  };
}

/** How far a judge is from the panel at each level, on the panel's own spread. */
export function levelsPicture(levels: Judge['levels']): Picture {
  const spreads = levels.map((one) => ({
    ...one,
    around: Math.sqrt(Math.max(0, one.distance ** 2 - one.mean ** 2)),
  }));
  const least = Math.min(10, ...levels.map(({ level }) => level));
  const most = Math.max(1, ...spreads.map((one) => Math.max(one.spread, Math.abs(one.mean) + one.around)));
  return {
    draw: ({ areaY, ruleY, ruleX, dot }) => ({
      height: 260,
      marginLeft: 44,
      marginBottom: 44,
      marginTop: 28,
      x: {
        label: m.judge.levelsAxis,
        domain: [least - 0.5, 10.5],
        ticks: whole(least),
        tickFormat: (v: number) => String(v),
      },
      y: { label: m.judge.off, domain: [-most, most], grid: true, tickFormat: (v: number) => signed(v, 1) },
      marks: [
        areaY(spreads, { x: 'level', y1: (d) => -d.spread, y2: 'spread', fill: soft, curve: 'monotone-x' }),
        ruleY([0], { stroke: ink }),
        ruleX(spreads, {
          x: 'level',
          y1: (d) => d.mean - d.around,
          y2: (d) => d.mean + d.around,
          stroke: own,
          strokeWidth: 2,
        }),
        dot(spreads, { x: 'level', y: 'mean', r: 5, fill: own, stroke: 'var(--paper)' }),
      ],
    }),
    table: {
      head: m.judge.levelsHead,
      rows: levels.map((one) => [
        one.level,
        one.grades,
        signed(one.mean, 2),
        fixed(one.distance, 2),
        fixed(one.spread, 2),
      ]),
    },
  };
}

/** The whole numbers from one to ten points. */
const whole = (from: number): number[] => Array.from({ length: 11 - from }, (_, i) => from + i);

export type DotKey = 'difference' | 'deviation' | 'order_disagreement' | 'accuracy';

/** One dot a seat on a line that says where nothing is to be seen. */
export function dotsPicture(judges: Judge[], key: DotKey): Picture {
  const [, , unit = ''] = m.panel.dots[key];
  const seats = judges.map((one) => ({ name: m.panel.seat(one.seat), value: one[key] ?? NaN }));
  const values = seats.map(({ value }) => value).filter((value) => !Number.isNaN(value));
  const at = line(key, values);
  const decimals = key === 'order_disagreement' ? 0 : 1;
  return {
    draw: ({ ruleX, ruleY, dot, link }) => ({
      height: 46 + 26 * seats.length,
      marginLeft: 64,
      marginBottom: 40,
      marginTop: 4,
      marginRight: 16,
      x: {
        label: unit,
        nice: true,
        ticks: 4,
        tickFormat: (v: number) => (key === 'difference' ? signed(v, decimals) : fixed(v, decimals)),
        domain: span(values, at),
      },
      y: { label: null, type: 'point', domain: seats.map(({ name }) => name), tickSize: 0 },
      marks: [
        ruleY(seats, { y: 'name', stroke: 'var(--line)' }),
        ruleX([at], { stroke: ink, strokeWidth: 2 }),
        link(seats, { x1: () => at, x2: 'value', y1: 'name', y2: 'name', stroke: own, strokeWidth: 2 }),
        dot(seats, { x: 'value', y: 'name', r: 6, fill: own, stroke: 'var(--paper)' }),
      ],
    }),
    table: {
      head: [m.panel.dotsHead, unit],
      rows: judges.map((one) => [`${m.panel.seat(one.seat)}, ${one.judge.name}`, fixed(one[key], 2)]),
    },
  };
}

/** Where the line stands: at none, at as exact as the panel, or at the middle of the panel. */
function line(key: DotKey, values: number[]): number {
  if (key === 'accuracy') return 1;
  if (key !== 'deviation') return 0;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? 0) + (sorted[Math.ceil(middle)] ?? 0)) / 2;
}

/** As wide as the values, with a little on both sides. */
function span(values: number[], at: number): [number, number] {
  const low = Math.min(at, ...values);
  const high = Math.max(at, ...values);
  const room = Math.max(0.1, (high - low) / 10);
  return [at === 0 && low === 0 ? 0 : low - room, high + room];
}

/** By how many ranks somebody moves without each seat. */
export function withoutPicture({ without, winners }: Panel): Picture {
  const names = (list: Panel['winners']) => list.map(flownName).join(', ');
  const rows = without.map((one) => ({
    name: m.panel.seat(one.seat),
    moved: one.largest_rank_change,
    other: names(one.winners) === names(winners) ? '' : m.panel.otherFirst,
    ...one,
  }));
  const most = Math.max(1, ...rows.map(({ moved }) => moved));
  return {
    draw: ({ barX, text, ruleX }) => ({
      height: 46 + 30 * rows.length,
      marginLeft: 64,
      marginBottom: 40,
      marginTop: 4,
      marginRight: 110,
      x: {
        label: m.panel.ranks,
        domain: [0, most],
        ticks: Math.min(most, 6),
        tickFormat: (v: number) => (Number.isInteger(v) ? String(v) : ''),
      },
      y: { label: null, domain: rows.map(({ name }) => name), tickSize: 0, padding: 0.35 },
      marks: [
        barX(rows, { x: 'moved', y: 'name', fill: soft, stroke: own, strokeWidth: 1.5 }),
        text(rows, {
          x: 'moved',
          y: 'name',
          text: (d) => (d.other ? `${d.moved} · ${d.other}` : String(d.moved)),
          textAnchor: 'start',
          dx: 6,
          fill: ink,
          fontWeight: 700,
        }),
        ruleX([0], { stroke: ink }),
      ],
    }),
    table: {
      head: m.panel.withoutHead,
      rows: rows.map((row) => [
        `${row.name}, ${row.judge.name}`,
        row.moved,
        names(row.flights) || m.panel.nobody,
        names(row.winners),
      ]),
    },
  };
}

/** A pilot by name or, where that is not for the reader, by the flight. */
export const flownName = ({ pilot, flight }: Panel['winners'][number]): string =>
  pilot ?? m.panel.flight(flight);
