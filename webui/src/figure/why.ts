/** Why something was not done, in words. */

import { Failure } from '../lib/client';
import { m } from '../lib/messages/figure';

/** What the service said of a failure; of one that it knows nothing of, what becomes of what was typed. */
export function whyNot(thrown: unknown): string {
  const { kind, detail } = Failure.of(thrown);
  return kind === 'away' ? m.editor.desk.awayText : detail;
}
