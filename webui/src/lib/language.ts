/** The language: the reader's choice, kept on this device, or the device's own. */

/** Those that there are words in, each by its own name. */
export const languages = { en: 'English', de: 'Deutsch' } as const;
export type Language = keyof typeof languages;

/** Words in English, and where those in another language load from; English is shown where there are none. */
export type Part<W> = { en: W } & Partial<Record<Exclude<Language, 'en'>, () => Promise<{ default: W }>>>;

const key = 'halfpoint.language';

const isLanguage = (name: string | null | undefined): name is Language => !!name && name in languages;

/** What is shown until the page is loaded again. */
export const language: Language = chosen() ?? ofDevice();

/** Keeps a choice, and begins again with it. */
export function speak(next: Language): void {
  try {
    localStorage.setItem(key, next);
  } catch {
    return; // storage is switched off: the device's own stays
  }
  location.reload();
}

const coming = new Set<Promise<void>>();

/** The words of some parts in one: English until {@link translated} says that they are in the language shown. */
export function words<A extends object>(a: Part<A>): A;
export function words<A extends object, B extends object>(a: Part<A>, b: Part<B>): A & B;
export function words<A extends object, B extends object, C extends object>(
  a: Part<A>,
  b: Part<B>,
  c: Part<C>,
): A & B & C;
export function words(...parts: Part<object>[]): object {
  const all = Object.assign({}, ...parts.map(({ en }) => en)) as object;
  if (language === 'en') return all;
  for (const part of parts) {
    const load = part[language];
    if (load) coming.add(translate(all, load));
  }
  return all;
}

/** Waits for the words of everything that has loaded so far. */
export async function translated(): Promise<void> {
  await Promise.all(coming);
  coming.clear();
}

/** Loads what has words of its own, and these. */
export async function inLanguage<T>(load: () => Promise<T>): Promise<T> {
  const loaded = await load();
  await translated();
  return loaded;
}

/** Puts a translation in the place of the English; without a network it may stay English. */
async function translate(english: object, load: () => Promise<{ default: object }>): Promise<void> {
  const loaded = await load().catch(() => undefined);
  if (loaded) replace(english as Words, loaded.default as Words);
}

type Words = { [name: string]: unknown };
const isGroup = (value: unknown): value is Words => typeof value === 'object' && !Array.isArray(value);

/** Replaces in place, since some modules hold a group of words. */
function replace(words: Words, by: Words): void {
  for (const [name, value] of Object.entries(by)) {
    const old = words[name];
    if (isGroup(old) && isGroup(value)) replace(old, value);
    else words[name] = value;
  }
}

function chosen(): Language | undefined {
  try {
    const kept = localStorage.getItem(key);
    return isLanguage(kept) ? kept : undefined;
  } catch {
    return undefined;
  }
}

/** The first of the device's languages that there are words in. */
function ofDevice(): Language {
  const theirs = navigator.languages.map((name) => name.split('-')[0]);
  return theirs.find(isLanguage) ?? 'en';
}
