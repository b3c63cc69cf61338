// The lesson to read is complete without this: the choice of colours, and light ones on paper.
import { byId } from './dom.js';
import { mountTheme } from './theme.js';

mountTheme(() => {});
byId('theme', HTMLElement).hidden = false;

const root = document.documentElement;
/** @type {string | undefined} */
let theme;
window.addEventListener('beforeprint', () => {
  theme = root.dataset.theme;
  root.dataset.theme = 'light';
});
window.addEventListener('afterprint', () => {
  if (theme) root.dataset.theme = theme;
  else delete root.dataset.theme;
});
