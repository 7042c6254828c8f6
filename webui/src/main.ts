import { mount } from 'svelte';
import App from './App.svelte';
import './base.css';
import './fonts.css';
import { language, translated } from './lib/language';
import { followDevice } from './lib/theme';
import { to } from './lib/router';
import LinePage from './line/LinePage.svelte';
import './tokens.css';

document.documentElement.lang = language;
followDevice();
void translated().then(() =>
  mount(location.pathname === to.line() ? LinePage : App, { target: document.body }),
);
