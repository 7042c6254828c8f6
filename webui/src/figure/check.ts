/** What the service says about a sequence, and how it is asked. */

import { readK, written, type Sheet, type WireSheet } from './sheet';
import type { Attitude } from './state';

export interface Complaint {
  place: string;
  text: string;
}

export interface CheckedItem {
  item: number;
  k: number;
  name?: string;
  call?: string;
  crowd?: string;
  entry?: Attitude;
  exit?: Attitude;
  across?: boolean;
  errors: Complaint[];
  drawings: { right: string; left: string };
}

export interface Finding {
  item: number;
  rule: string;
  level: 'error' | 'remark';
  text: string;
}

export interface Checked {
  items: CheckedItem[];
  findings: Finding[];
  total_k: number;
  figures: number;
  clean: boolean;
}

/** What a free sequence must keep, as the service takes it. */
export interface Limits {
  max_figures?: number;
  min_figures?: number;
  max_k?: number;
  min_k?: number;
  k_tolerance?: number;
  max_figure_k?: number;
  max_turns?: number;
  rotations_per_line?: number;
  repeat_allowed?: boolean | string[];
  require?: { any: string[]; least?: number; most?: number }[];
  forbid?: string[];
}

export interface Question {
  body: WireSheet & { limits?: Limits };
  /** Keys of the items asked about, in order. */
  keys: string[];
  /** Keys of the items whose K is not typed yet. */
  lacking: ReadonlySet<string>;
}

/** Stands for a K that is not typed yet: an item without one is refused, and its drawing with it. */
const placeholder = 0.1;

/** Asks about a sheet as it stands, half written as it may be. */
export function question(sheet: Sheet, limits: Limits | undefined): Question {
  const lacking = new Set(sheet.items.filter(({ k }) => readK(k) === undefined).map(({ key }) => key));
  const wire = written(sheet);
  const items = wire.items.map((item) => ({ ...item, k: item.k ?? placeholder }));
  return {
    body: limits ? { ...wire, items, limits } : { ...wire, items },
    keys: sheet.items.map(({ key }) => key),
    lacking,
  };
}

/** What is known of the items by their keys, and of the whole. */
export interface Answer {
  items: ReadonlyMap<string, CheckedItem>;
  findings: ReadonlyMap<string, Finding[]>;
  /** Findings of the whole sequence. */
  whole: Finding[];
  totalK: number;
  figures: number;
  clean: boolean;
}

/** Puts an answer to the items it was asked about; what rests on a K not typed yet is left out. */
export function answer({ keys, lacking, body }: Question, checked: Checked): Answer {
  const findings = new Map<string, Finding[]>();
  for (const one of checked.findings) {
    const key = keys[one.item - 1];
    if (key === undefined || (one.rule === 'sum_of_k' && lacking.has(key))) continue;
    findings.set(key, [...(findings.get(key) ?? []), one]);
  }
  const invented = body.items.filter(({ kind }, i) => kind === 'figure' && lacking.has(keys[i] ?? '')).length;
  return {
    items: new Map(checked.items.map((item, i) => [keys[i] ?? '', item])),
    findings,
    whole: checked.findings.filter(({ item }) => item === 0),
    totalK: Math.round(10 * (checked.total_k - invented * placeholder)) / 10,
    figures: checked.figures,
    clean: checked.clean && lacking.size === 0,
  };
}
