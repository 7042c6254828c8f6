/** What became of a sequence, in the office's words. */

import { m } from '../lib/messages/figure';
import type { Registered } from './service';

export interface States {
  words: { text: string; needed: boolean }[];
  /** Something is to be done. */
  open: boolean;
}

/** What is to be said of a sequence; `common` ones are released besides. */
export function stateOf(sequence: Registered | undefined, common: boolean): States {
  const words = m.office.state;
  if (!sequence || sequence.digest === '')
    return { words: [{ text: words.missing, needed: true }], open: true };
  const signed = Boolean(sequence.signed_off);
  const said = [
    found(sequence, signed),
    { text: signed ? words['signed-off'] : words.unsigned, needed: !signed },
  ];
  if (common) {
    const released = Boolean(sequence.released_at);
    said.push({ text: released ? words.released : words.hidden, needed: false });
  }
  return { words: said, open: said.some(({ needed }) => needed) };
}

function found(sequence: Registered, signed: boolean) {
  const words = m.office.state;
  const checked = sequence.checked;
  if (!checked) return { text: words.registered, needed: false };
  const inFindings = checked.findings.filter(({ level }) => level === 'error').length;
  const errors = inFindings + checked.items.reduce((all, item) => all + item.errors.length, 0);
  const remarks = checked.findings.length - inFindings;
  if (errors > 0) return { text: words.errors(errors), needed: !signed };
  return { text: remarks > 0 ? words.remarks(remarks) : words.clean, needed: false };
}
