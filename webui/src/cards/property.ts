/** A property of an element's style, set by script: the content policy lets no style stand in the markup. */

import type { Attachment } from 'svelte/attachments';

export function property(name: string, value: string | number): Attachment<HTMLElement> {
  return ({ style }) => style.setProperty(name, String(value));
}
