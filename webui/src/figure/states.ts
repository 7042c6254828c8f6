/** What became of a sequence, in the office's words. */

import { m } from '../lib/messages/figure';
import type { Checked, Registered, SequenceState } from './types';

type Known = Pick<SequenceState, 'digest' | 'errors' | 'remarks' | 'signed_off' | 'released_at'>;

export interface State {
  /** Whether it is registered and what was found. */
  found: Word;
  signed: Word | undefined;
  released: Word | undefined;
  /** Something is to be done. */
  open: boolean;
}

interface Word {
  text: string;
  /** It is to be done. */
  needed: boolean;
}

const words = m.office.state;

/** What is to be said of a sequence; an `unknown` one is released besides. */
export function stateOf(sequence: Known, unknown: boolean): State {
  if (sequence.digest === '') {
    return {
      found: { text: words.missing, needed: true },
      signed: undefined,
      released: undefined,
      open: true,
    };
  }
  const signed = Boolean(sequence.signed_off);
  return {
    found: found(sequence, signed),
    signed: { text: signed ? words.signed : words.unsigned, needed: !signed },
    released: unknown
      ? { text: sequence.released_at ? words.released : words.hidden, needed: false }
      : undefined,
    open: !signed,
  };
}

function found({ errors, remarks }: Known, signed: boolean): Word {
  if (errors > 0) return { text: words.errors(errors), needed: !signed };
  return { text: remarks > 0 ? words.remarks(remarks) : words.clean, needed: false };
}

/** What is known of a sequence that was read whole. */
export function knownOf({ checked, ...rest }: Registered): Known {
  return { ...rest, ...counted(checked) };
}

function counted({ items, findings }: Checked): { errors: number; remarks: number } {
  const inFindings = findings.filter(({ level }) => level === 'error').length;
  const inMoves = items.reduce((all, item) => all + item.errors.length, 0);
  return { errors: inFindings + inMoves, remarks: findings.length - inFindings };
}
