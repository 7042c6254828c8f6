/** The set-up of one contest on the office's desk: its lists, what is wrong with them, and saving them. */

import { m } from '../lib/messages/setup';
import { Refusal } from '../lib/refusal';
import { keep, kept, type AllDrafts } from './drafts';
import { read } from './fields';
import { isNumeric } from './numbers';
import { Rows } from './rows.svelte';
import { changeSetup, readSetup } from './service';
import { listNames, type Complaint, type ListName, type Lists, type Row, type Setup } from './types';

/** How it stands with what was typed. */
export type Standing = '' | 'saving' | 'saved' | 'wrong' | 'choose' | 'merged' | 'away' | 'refused';

type AnyRows = { [L in ListName]: Rows<Lists[L]> };

/** What is to be sent of a list, in the order in which it is sent. */
type Sent = Partial<Record<ListName, (Row & { remove?: boolean })[]>>;

export class Desk {
  readonly lists: AnyRows;
  standing = $state<Standing>('');
  /** What the service said of a failure. */
  detail = $state('');
  complaints = $state.raw<Complaint[]>([]);
  /** Drafts were found on this device when the page was opened. */
  found = $state(false);
  /** This device keeps what is typed. */
  keeps = $state(true);

  constructor(readonly contest: string) {
    const list = <L extends ListName>(name: L): Rows<Lists[L]> =>
      new Rows<Lists[L]>((id, field) => this.#changed(name, id, field));
    this.lists = Object.fromEntries(listNames.map((name) => [name, list(name)])) as unknown as AnyRows;
    const drafts = kept(contest);
    for (const name of listNames) this.#rows(name).restore(drafts[name] ?? {});
    this.found = Object.keys(drafts).length > 0;
  }

  /** Takes the set-up as it was read, under what was typed. */
  take(setup: Setup): void {
    this.lists.contest.take([{ ...setup.contest, id: 'contest', position: 0 }]);
    for (const name of listNames) if (name !== 'contest') this.#rows(name).take(setup[name]);
    if (this.standing === 'choose' && this.#all().every((name) => this.lists[name].clashing === 0))
      this.standing = '';
    this.#keep();
  }

  unsaved(of: ListName[]): number {
    return of.reduce((sum, name) => sum + this.lists[name].unsaved, 0);
  }

  clashing(of: ListName[]): number {
    return of.reduce((sum, name) => sum + this.lists[name].clashing, 0);
  }

  /** What is wrong with a field of a row; with the whole row where the field is empty. */
  wrong(list: ListName, id: string, field: string): string {
    return this.complaints
      .filter((one) => one.list === list && one.id === id && one.field === field)
      .map(({ text }) => text)
      .join(' ');
  }

  /** What is wrong beside all rows that are there. */
  get elsewhere(): string[] {
    return this.complaints.filter(({ id }) => id === '').map(({ text }) => text);
  }

  /** Saves all that was typed into some of the lists, or nothing. */
  async save(of: ListName[], reason = ''): Promise<void> {
    if (this.standing === 'saving') return;
    this.complaints = this.#unread(of);
    if (this.complaints.length > 0) return this.#stand('wrong');
    if (this.clashing(of) > 0) return this.#stand('choose');
    const sent = this.#edits(of);
    this.#stand('saving');
    try {
      const setup = await changeSetup(this.contest, { ...bodyOf(sent), ...(reason ? { reason } : {}) });
      for (const name of of) this.#rows(name).stored(sent[name] ?? []);
      this.take(setup);
      this.found = false;
      this.#stand('saved');
    } catch (thrown) {
      if (!(thrown instanceof Refusal)) throw thrown;
      await this.#refused(thrown, sent);
    }
  }

  /** Goes back to what was read. */
  discard(of: ListName[]): void {
    for (const name of of) this.#rows(name).restore({});
    this.complaints = this.complaints.filter(({ list }) => !of.includes(list as ListName));
    this.found = false;
    this.#keep();
    this.#stand('');
  }

  async #refused(refusal: Refusal, sent: Sent): Promise<void> {
    const { kind, status, detail, errors } = refusal;
    const clash = status === 409;
    this.complaints = clash ? [] : placed(errors, sent);
    if (kind === 'away') return this.#stand('away');
    if (errors.length === 0) return this.#stand('refused', detail);
    if (!clash) return this.#stand('wrong', detail);
    try {
      this.take(await readSetup(this.contest));
      this.#stand(this.#all().some((name) => this.lists[name].clashing > 0) ? 'choose' : 'merged');
    } catch {
      this.#stand('away');
    }
  }

  #stand(standing: Standing, detail = ''): void {
    this.standing = standing;
    this.detail = detail;
  }

  /** Numbers that cannot be read. */
  #unread(of: ListName[]): Complaint[] {
    return of.flatMap((list) =>
      Object.values(this.#rows(list).drafts).flatMap(({ row, removed }) =>
        removed ? [] : unreadNumbers(list, row),
      ),
    );
  }

  #edits(of: ListName[]): Sent {
    const lists = of.map((name) => [name, this.#rows(name).edits()] as const);
    return Object.fromEntries(lists.filter(([, rows]) => rows.length > 0));
  }

  #changed(list: ListName, id: string, field: string): void {
    const is = (one: Complaint) =>
      one.list === list && one.id === id && (field === '' || `${one.field}.`.startsWith(`${field}.`));
    this.complaints = this.complaints.filter((one) => !is(one) && one.id !== '');
    if (this.standing !== 'saving') this.standing = '';
    this.#keep();
  }

  #keep(): void {
    const drafts: AllDrafts = {};
    for (const name of listNames) if (this.lists[name].unsaved > 0) drafts[name] = this.#rows(name).drafts;
    this.keeps = keep(this.contest, drafts);
  }

  #all = (): ListName[] => listNames;

  /** A list whose rows are of whatever kind. */
  #rows = (name: ListName): Rows<Row> => this.lists[name] as unknown as Rows<Row>;
}

function unreadNumbers(list: ListName, row: Row): Complaint[] {
  const wrong = [...numbersOf(row)].filter((field) => typeof read(row, field) === 'string');
  return wrong.map((field) => ({ list, id: row.id, field, text: m.setup.number }));
}

/** The places of all numbers of a row. */
function* numbersOf(row: object, within = ''): Iterable<string> {
  for (const [name, value] of Object.entries(row)) {
    const place = within + name;
    if (isNumeric(place)) yield place;
    else if (['combine', 'method', 'combine.weights'].includes(place)) yield* numbersOf(value, `${place}.`);
  }
}

/** What the service takes: the contest's own row has neither id nor place. */
function bodyOf(sent: Sent): object {
  const { contest, ...lists } = sent;
  const [row] = contest ?? [];
  if (!row) return lists;
  const { id: _, position: __, remove: ___, ...own } = row;
  return { ...lists, contest: own };
}

/** Complaints at the rows that were sent: `/pilots/3/name` is a field of the fourth pilot. */
function placed(errors: { pointer: string; message: string }[], sent: Sent): Complaint[] {
  return errors.map(({ pointer, message: text }) => {
    const [list = '', ...rest] = pointer.split('/').slice(1);
    const rows = sent[list as ListName];
    if (!rows) return { list: '', id: '', field: '', text };
    const index = list === 'contest' ? '0' : rest.shift();
    const id = rows[Number(index)]?.id ?? '';
    return { list: list as ListName, id, field: rest.join('.'), text };
  });
}

const desks: Record<string, Desk> = {};

/** The desk of a contest; the same one on each of its pages, so that nothing typed is lost on the way. */
export function deskOf(contest: string): Desk {
  return (desks[contest] ??= new Desk(contest));
}
