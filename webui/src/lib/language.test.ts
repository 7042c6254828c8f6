import { readdirSync, readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

/** The module as it begins for a reader who chose a language, or none. */
async function begun(chosen?: string) {
  vi.resetModules();
  if (chosen) localStorage.setItem('halfpoint.language', chosen);
  return import('./language');
}

const part = () => ({
  en: { greet: 'Good day', of: { one: 'one', two: (n: number) => `${n} birds` } },
  de: () =>
    Promise.resolve({
      default: { greet: 'Guten Tag', of: { one: 'eins', two: (n: number) => `${n} Vögel` } },
    }),
});

beforeEach(() => localStorage.clear());
afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

describe('language', () => {
  it('is the one that was chosen, where there are words in it', async () => {
    expect((await begun('de')).language).toBe('de');
    expect((await begun('xx')).language).toBe('en');
  });

  it('is the first of the device’s that there are words in', async () => {
    vi.stubGlobal('navigator', { languages: ['fr-FR', 'de-AT', 'en'] });
    expect((await begun()).language).toBe('de');
    vi.stubGlobal('navigator', { languages: ['fr-FR'] });
    expect((await begun()).language).toBe('en');
  });

  it('replaces every word before a page is shown, in groups that a module holds too', async () => {
    const { words, translated } = await begun('de');
    const m = words(part());
    const held = m.of;
    expect(m.greet).toBe('Good day');
    await translated();
    expect(m.greet).toBe('Guten Tag');
    expect(held.one).toBe('eins');
    expect(held.two(3)).toBe('3 Vögel');
  });

  it('stays English without a network', async () => {
    const { words, translated } = await begun('de');
    const m = words({ ...part(), de: () => Promise.reject(new Error('away')) });
    await translated();
    expect(m.greet).toBe('Good day');
  });
});

describe('a translation', () => {
  const folder = 'src/lib/messages';
  const english = readdirSync(folder).filter((name) => /^en(-\w+)?\.ts$/.test(name));

  it.each(english)('is there for %s and is loaded', (name) => {
    const translation = name.replace(/^en/, 'de');
    expect(readdirSync(folder)).toContain(translation);
    const loader = name === 'en.ts' ? 'index.ts' : name.replace(/^en-/, '');
    // The build loads at once what the server says; a page loads its words when it needs them.
    const how = name === 'en-ahead.ts' ? 'from ' : 'import\\(';
    expect(readFileSync(`${folder}/${loader}`, 'utf8')).toMatch(
      new RegExp(`${how}'./${translation.replace('.ts', '')}'`),
    );
  });
});
