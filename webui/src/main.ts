import { mount } from 'svelte';
import App from './App.svelte';
import './base.css';
import './fonts.css';
import { followDevice } from './lib/theme';
import './tokens.css';

followDevice();
mount(App, { target: document.body });
