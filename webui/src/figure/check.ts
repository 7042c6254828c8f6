/** What the service is asked about a sheet, and how its answer belongs to the items. */

import { spot } from './places';
import { kOf, written, type Item, type Sheet } from './sheet';
import type { Body, Checked, CheckedItem, Complaint, Finding } from './types';

export interface Question {
  body: Body;
  /** Keys of the items asked about, in order. */
  keys: string[];
  /** Keys of the items whose K nobody knows yet. */
  lacking: ReadonlySet<string>;
}

/** Stands for a K that is not known yet: an item without one is refused, and its drawing with it. */
const placeholder = 0.1;

/**
 * Asks about a sheet as it stands, half written as it may be. A K left out is
 * the organiser's table's to fill in, unless that is known to lack the numbers.
 */
export function question(sheet: Sheet, category: string | undefined, lacks: readonly string[]): Question {
  const wire = written(sheet);
  const unknown = (item: Item) =>
    kOf(item) === undefined &&
    (category === undefined || !hasNumbers(item) || lacks.includes(numbersOf(item)));
  const lacking = new Set(sheet.items.filter(unknown).map(({ key }) => key));
  const keys = sheet.items.map(({ key }) => key);
  const items = wire.items.map((item, i) =>
    lacking.has(keys[i] ?? '') ? { ...item, k: placeholder } : item,
  );
  return { body: category === undefined ? { ...wire, items } : { ...wire, items, category }, keys, lacking };
}

const hasNumbers = (item: Item) => item.numbers.some(({ number }) => number.trim() !== '');
const numbersOf = (item: Item) => item.numbers.map(({ number }) => number.trim()).join(' ');

/** The numbers of items that were refused because the organiser's table does not have them all. */
export function lackingNumbers(sheet: Sheet, complaints: readonly Complaint[]): string[] {
  return complaints.flatMap(({ place }) => {
    const { item, field } = spot(place);
    const found = item === undefined ? undefined : sheet.items[item];
    return found && field === 'k' && kOf(found) === undefined ? [numbersOf(found)] : [];
  });
}

/** What is known of the items by their keys, and of the whole. */
export interface Answer {
  items: ReadonlyMap<string, CheckedItem>;
  /** K of each item that has one, typed or filled in. */
  k: ReadonlyMap<string, number>;
  findings: ReadonlyMap<string, Finding[]>;
  /** Findings of the whole sequence. */
  whole: Finding[];
  totalK: number;
  clean: boolean;
}

/** Puts an answer to the items it was asked about; what rests on a K not known yet is left out. */
export function answer({ keys, lacking, body }: Question, checked: Checked): Answer {
  const findings = new Map<string, Finding[]>();
  for (const one of checked.findings) {
    const key = keys[one.item - 1];
    if (key === undefined || (one.rule === 'sum_of_k' && lacking.has(key))) continue;
    findings.set(key, [...(findings.get(key) ?? []), one]);
  }
  const invented = body.items.filter(({ kind }, i) => kind === 'figure' && lacking.has(keys[i] ?? '')).length;
  const all = checked.items.map((item, i) => [keys[i] ?? '', item] as const);
  return {
    items: new Map(all),
    k: new Map(all.filter(([key]) => !lacking.has(key)).map(([key, { k }]) => [key, k])),
    findings,
    whole: checked.findings.filter(({ item }) => item === 0),
    totalK: Math.round(10 * (checked.total_k - invented * placeholder)) / 10,
    clean: checked.clean && lacking.size === 0,
  };
}
