// Runs before the first paint, so that no page flashes in the wrong theme.
// A file of its own because the content policy allows no inline script.
(() => {
  let chosen = null;
  try {
    chosen = localStorage.getItem('halfpoint.theme');
  } catch {
    // Storage is switched off: follow the device.
  }
  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  document.documentElement.dataset.theme = chosen || (dark ? 'dark' : 'light');
})();
