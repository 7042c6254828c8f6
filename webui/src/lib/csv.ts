/** Tables as CSV (RFC 4180), to be opened by any program for tables. */

/** A number stands as it is, a text as text, whatever it begins with. */
export type Field = string | number | undefined;

export type Table = Field[][];

/** Lines ended by CR LF; the first is the heading. */
export function csv(table: Table): string {
  return table.map((row) => row.map(written).join(',') + '\r\n').join('');
}

/**
 * What programs for tables take for the beginning of a formula, and would run
 * (OWASP, CSV Injection): a text that begins so is written behind an apostrophe.
 */
const formula = /^\s*[=+\-@＝＋－＠]|^[\t\r]/;

function written(field: Field): string {
  if (field === undefined) return '';
  if (typeof field === 'number') return String(field);
  const text = formula.test(field) ? `'${field}` : field;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A file's name made of words: letters and digits, the rest hyphens. */
export function fileName(words: string[], extension: string): string {
  const name = words
    .join(' ')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
  return `${name}.${extension}`;
}

/** Saves a table under a name. The mark before it says to old programs that it is UTF-8. */
export function save(table: Table, name: string): void {
  const url = URL.createObjectURL(new Blob(['\ufeff', csv(table)], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url));
}
