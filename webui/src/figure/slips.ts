/** What is typed and cannot be sent as it stands: said before the service is asked, so that nothing is left out. */

import { m } from '../lib/messages/figure';
import { readK, type Item, type Sheet } from './sheet';
import type { Complaint } from './types';

const words = m.editor.form;

/** The slips of an item, by the name of the field. */
export function slips({ k, numbers }: Item): { field: string; text: string }[] {
  const found = [];
  if (wrongK(k)) found.push({ field: 'k', text: words.kWrong });
  if (numbers.some((one) => wrongK(one.k))) found.push({ field: 'element_k', text: words.kWrong });
  const given = numbers.filter((one) => one.k.trim() !== '');
  if (given.some(({ number }) => number.trim() === '')) {
    found.push({ field: 'element_k', text: words.kWithoutNumber });
  } else if (given.length > 0 && given.length < numbers.filter(({ number }) => number.trim() !== '').length) {
    found.push({ field: 'element_k', text: words.kOfEach });
  }
  return found;
}

const wrongK = (text: string) => text.trim() !== '' && readK(text) === undefined;

/** The slips of a sheet as the service would place them. */
export function slipsOf(sheet: Sheet): Complaint[] {
  return sheet.items.flatMap((item, i) =>
    slips(item).map(({ field, text }) => ({ place: `items[${i}].${field}`, text })),
  );
}
