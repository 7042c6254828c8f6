/** A paper sheet while it is typed. */

import { forget, keep, kept } from './drafts';
import { gradeOf } from './keys';
import type { PaperReading, PaperSheet } from './service';

export class Typing {
  texts = $state<string[]>([]);
  signed = $state(true);
  #id: string;

  constructor(readonly sheet: PaperSheet) {
    const { flight, seat, items, readings, read, signed } = sheet;
    const draft = kept(flight, seat.judge.id, items.length, readings);
    this.#id = draft?.id ?? crypto.randomUUID();
    this.texts = draft?.texts ?? items.map((_, i) => read[i] ?? '');
    this.signed = draft?.signed ?? (readings < 2 || signed);
  }

  /** What stands in an item's field; what is a grade is written as one once it is left. */
  type(item: number, text: string): void {
    this.texts[item] = text;
    this.#keep();
  }

  settle(item: number): void {
    const grade = gradeOf(this.texts[item] ?? '');
    if (grade !== undefined) this.texts[item] = grade;
  }

  sign(signed: boolean): void {
    this.signed = signed;
    this.#keep();
  }

  /** Items of which no grade stands on the paper and none on the sheet, though it is signed. */
  get missing(): number[] {
    if (!this.signed) return [];
    return this.texts.flatMap((text, i) => (text.trim() === '' && !this.sheet.grades[i] ? [i] : []));
  }

  get wrong(): number[] {
    return this.texts.flatMap((text, i) => (gradeOf(text) === undefined ? [i] : []));
  }

  reading(): PaperReading {
    return {
      id: this.#id,
      signed: this.signed,
      entries: this.texts.map((text) => ({ grade: gradeOf(text) ?? text })),
    };
  }

  /** It has reached the office: the next reading begins anew. */
  done(): void {
    forget(this.sheet.flight, this.sheet.seat.judge.id);
  }

  #keep(): void {
    keep(this.sheet.flight, this.sheet.seat.judge.id, {
      id: this.#id,
      texts: $state.snapshot(this.texts),
      signed: this.signed,
      after: this.sheet.readings,
    });
  }
}

/** The seat to go on with: one whose paper nobody has read, or else one whose paper waits for another reading. */
export function nextSeat<T extends { signed: boolean; readings: number }>(
  seats: T[],
  after: number,
): T | undefined {
  const turn = [...seats.slice(after + 1), ...seats.slice(0, after + 1)].filter((seat) => !seat.signed);
  return turn.find((seat) => seat.readings === 0) ?? turn[0];
}
