/** The theme: the reader's choice, kept on this device, or the device's own. */

export const themes = ['device', 'light', 'dark', 'sun'] as const;
export type Theme = (typeof themes)[number];

const key = 'halfpoint.theme'; // also in public/theme.js, which runs before the first paint

/** The theme that was chosen here. */
export function chosen(): Theme {
  const kept = read();
  return themes.find((theme) => theme === kept) ?? 'device';
}

/** Shows a theme and keeps the choice. */
export function choose(theme: Theme): void {
  try {
    if (theme === 'device') localStorage.removeItem(key);
    else localStorage.setItem(key, theme);
  } catch {
    // Storage is switched off: the choice holds until the page is left.
  }
  show(theme);
}

/** Follows the device from day to night where nothing else was chosen. */
export function followDevice(): void {
  dark().addEventListener('change', () => {
    if (chosen() === 'device') show('device');
  });
}

function show(theme: Theme): void {
  const own = dark().matches ? 'dark' : 'light';
  document.documentElement.dataset.theme = theme === 'device' ? own : theme;
}

function dark(): MediaQueryList {
  return matchMedia('(prefers-color-scheme: dark)');
}

function read(): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}
