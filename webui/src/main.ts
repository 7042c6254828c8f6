import { mount } from 'svelte';
import App from './App.svelte';
import './base.css';
import './fonts.css';
import { followDevice } from './lib/theme';
import { to } from './lib/router';
import LinePage from './line/LinePage.svelte';
import './tokens.css';

followDevice();
mount(location.pathname === to.line() ? LinePage : App, { target: document.body });
