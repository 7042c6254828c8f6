import { m } from '../lib/messages/line';
import type { LineDevice } from './device.svelte';

/** What of a device the word is about. */
type Told = Pick<LineDevice, 'waiting' | 'former' | 'refused' | 'delivering' | 'reached'>;

export interface Word {
  text: string;
  /** It needs somebody. */
  kind: 'calm' | 'needs';
}

/**
 * Where what was entered is. *All at the office* is said only when the office
 * has said so of every record.
 */
export function wordOf({ waiting: own, former, refused, delivering, reached }: Told): Word {
  const { word } = m.line;
  const waiting = own + former;
  if (refused.length > 0) return { text: word.refused(refused.length), kind: 'needs' };
  if (waiting === 0) return { text: word.all, kind: 'calm' };
  const away = own === 0 || delivering === 'failing' || reached === false;
  return { text: away ? word.waiting(waiting) : word.saved, kind: 'calm' };
}
