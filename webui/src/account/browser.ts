/** What a browser says of itself, in the words people use. */

import { m } from '../lib/messages/account';

// The order matters: most browsers also name the ones that came before them.
const browsers: [RegExp, string][] = [
  [/\bEdgA?\//, 'Edge'],
  [/\bOPR\//, 'Opera'],
  [/\bSamsungBrowser\//, 'Samsung Internet'],
  [/\b(Firefox|FxiOS)\//, 'Firefox'],
  [/\b(HeadlessChrome|Chrome|CriOS|Chromium)\//, 'Chrome'],
  [/\bSafari\//, 'Safari'],
  [/^curl\//, 'curl'],
];
const systems: [RegExp, string][] = [
  [/\biPad\b/, 'iPad'],
  [/\biPhone\b/, 'iPhone'],
  [/\bAndroid\b/, 'Android'],
  [/\bWindows\b/, 'Windows'],
  [/\bMac OS X\b/, 'macOS'],
  [/\bCrOS\b/, 'ChromeOS'],
  [/\bLinux\b/, 'Linux'],
];

export function browserOf(agent: string): string {
  const browser = nameIn(browsers, agent);
  const system = nameIn(systems, agent);
  return browser && system ? m.sessions.on(browser, system) : browser || system || m.sessions.unknown;
}

function nameIn(list: [RegExp, string][], agent: string): string {
  return list.find(([pattern]) => pattern.test(agent))?.[1] ?? '';
}
