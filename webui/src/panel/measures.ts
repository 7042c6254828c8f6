/** The numbers about a judge, each with what it means in plain words. */

import { m } from '../lib/messages/panel';
import { fixed, percentOf, signed } from '../lib/numbers';
import type { Agreement, Judge, Middle } from './service';

export interface Measure {
  name: string;
  value: string;
  /** The middle of the panel; empty where there is none to compare with. */
  middle: string;
  means: string;
}

const words = m.judge;
const share = (value: number | undefined) => (value === undefined ? '' : `${percentOf(value)} %`);
const degree = (value: number | undefined) => (value === undefined ? '' : `${fixed(value, 1)} %`);

/** One line of the table; where there is no number, it says that there cannot be one. */
function line(name: string, value: string, middle: string, means: string): Measure {
  return { name, value, middle, means: value === '' ? words.says.none : means };
}

/** All numbers about a judge on a panel of so many seats. */
export function measures(judge: Judge, middle: Middle, seats: number): Measure[] {
  return [
    ...grading(judge, middle),
    ...agreeing(judge, middle),
    ...trusted(judge, middle, seats),
    ...codes(judge),
    own(judge),
  ];
}

function grading(judge: Judge, middle: Middle): Measure[] {
  const { names, says } = words;
  const shift = judge.difference ?? 0;
  return [
    line(
      names.difference,
      signed(judge.difference, 2),
      signed(middle.difference, 2),
      says.difference(shift, fixed(Math.abs(shift), 2)),
    ),
    line(
      names.deviation,
      fixed(judge.deviation, 2),
      fixed(middle.deviation, 2),
      says.deviation(fixed(judge.deviation, 2)),
    ),
    line(
      names.accuracy,
      fixed(judge.accuracy, 2),
      fixed(middle.accuracy, 2),
      says.accuracy(fixed(judge.accuracy, 2)),
    ),
  ];
}

function agreeing(judge: Judge, middle: Middle): Measure[] {
  const { names, says } = words;
  return [
    line(
      names.order_disagreement,
      degree(judge.order_disagreement),
      degree(middle.order_disagreement),
      says.order(degree(judge.order_disagreement)),
    ),
    line(names.pearson, fixed(judge.pearson, 2), fixed(middle.pearson, 2), says.pearson),
    line(names.spearman, fixed(judge.spearman, 2), '', says.spearman),
    line(names.kendall, fixed(judge.kendall, 2), '', says.kendall),
  ];
}

function trusted(judge: Judge, middle: Middle, seats: number): Measure[] {
  const { names, says } = words;
  const even = degree(100 / seats);
  return [
    line(names.distrusted, share(judge.distrusted), share(middle.distrusted), says.distrusted),
    line(names.weight, times100(judge.weight), times100(middle.weight), says.weight(seats, even)),
  ];
}

const times100 = (value: number | undefined) => degree(value === undefined ? undefined : 100 * value);

function codes(judge: Judge): Measure[] {
  return (['hard_zeros', 'perception_zeros', 'not_seen'] as const).map((code) => ({
    name: words.names[code],
    value: words.codes(judge[code].given, judge[code].upheld),
    middle: '',
    means: words.says[code],
  }));
}

function own(judge: Judge): Measure {
  const { own_difference: value, own_p: p, own_pilots: pilots } = judge;
  const means =
    value === undefined || p === undefined ? words.says.noOwn : words.says.own(pilots, fixed(100 * p, 0));
  return { name: words.names.own, value: signed(value, 2), middle: '', means };
}

/** The numbers about a panel with itself. */
export function agreements(agreement: Agreement): Measure[] {
  const { agreements: names, agreementMeans: means, unknown } = m.panel;
  return (['icc_single', 'icc_panel', 'kendall_w', 'cronbach_alpha'] as const).map((key) => {
    const value = fixed(agreement[key], 2);
    return { name: names[key], value, middle: '', means: value === '' ? unknown : means[key](value) };
  });
}
