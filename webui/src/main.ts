import { mount } from 'svelte';
import App from './App.svelte';
import './base.css';
import './drawn.css';
import './fonts.css';
import { language, translated } from './lib/language';
import { followDevice } from './lib/theme';
import { match, to } from './lib/router';
import LinePage from './line/LinePage.svelte';
import { laterPage } from './pages';
import './tokens.css';

document.documentElement.lang = language;
followDevice();
void begin();

/** Shows the page when its part is there, so that it is drawn once; where that fails, the page says so. */
async function begin(): Promise<void> {
  await laterPage(match(location.pathname))
    ?.load()
    .catch(() => undefined);
  await translated();
  document.querySelector('.drawn-ahead')?.remove(); // what the server drew, to be read until now
  mount(location.pathname === to.line() ? LinePage : App, { target: document.body });
}
