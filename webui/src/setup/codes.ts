/** Codes made of names, for whoever does not care about codes. */

const most = 40;

/** `ann-ash` for Ann Ash; with a number behind it where somebody else has that one. */
export function codeFor(name: string, taken: string[]): string {
  const words = name.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  const made = words.join('-').slice(0, most);
  for (let n = 1; ; n++) {
    const code = n === 1 ? made : `${made}-${n}`;
    if (code !== '' && !taken.includes(code)) return code;
  }
}
