// The page "How well the rules do, by speed and altitude": the map over all winds at each speed and
// altitude of a grid, from the scene and the choice that its address has.
import { addressKey, addressLink, kept_in_hash } from './address.js';
import { announce } from './announce.js';
import { load } from './core.mjs';
import { byId, write } from './dom.js';
import { el } from './markup.js';
import { patcher } from './patch.js';
import { CELLS, createQueue, linkAt } from './study-cells.js';
import { MAP_PX, mountGrid } from './study-grid.js';
import { createStudyHost } from './study-host.js';
import { saveCsv, saveSvg } from './study-take.js';
import { headingWords, holdWords, keyed, numbersHint } from './study-words.js';
import { THEMES, mountTheme, paintedTheme } from './theme.js';
import { USUAL, mountChoice } from './winds-choice.js';
import { keyTrees } from './winds-key.js';

/** @typedef {import('./study-work.js').MapPicture} MapPicture */
/** @typedef {import('./study-words.js').Result} Result */

/** Winds that trainers meet. */
const USUAL_HERE = { ...USUAL, most: '30' };
/** As in the mode "All winds", for the same numbers; what takes a flight or more for each wind is left coarser. */
const FINEST = 2;
const FINEST_FLOWN = 1;

const grid = mountGrid(byId('maps', HTMLElement));
const showKey = patcher(byId('study-key', HTMLElement));
const showPaperKey = patcher(byId('study-key-paper', HTMLElement));
const showProblems = patcher(byId('study-problems', HTMLElement));
const buttons = { csv: byId('study-csv', HTMLButtonElement), svg: byId('study-svg', HTMLButtonElement) };
const says = byId('study-says', HTMLElement);

/** By cell. @type {Result[]} */
let results = [];
/** Any one of them: the key is the same for all. @type {MapPicture | null} */
let picture = null;
/** What was asked for, in order: of which cell, and whether for paper. @type {{i: number, for_paper: boolean}[]} */
let asked = [];
/** The sentence of the next whole grid is told. */
let untold = false;

const host = createStudyHost({
  ready() {},
  map: (made) => queue.came(made),
  cloud() {},
  shares() {},
  failed() {
    byId('study-failed', HTMLElement).hidden = false;
    byId('study-body', HTMLElement).hidden = true;
  },
});
const queue = createQueue(host, (at, made) => {
  const { i, for_paper } = asked[at];
  grid.show(i, made, for_paper);
  results[i] = { cell: CELLS[i], info: made.info };
  if (at === 0) picture = keyed(made);
  if (i === 0) (for_paper ? showPaperKey : showKey)(keyTrees(keyed(made), false));
  if (at === asked.length - 1) finish();
});

const choice = mountChoice(() => {
  untold = true;
  begin();
  writeAddress();
}, USUAL_HERE);

function finish() {
  grid.done();
  document.documentElement.dataset.study = 'whole';
  const sentence = headingWords(results);
  write(says, sentence);
  delete says.dataset.waits;
  for (const button of Object.values(buttons)) button.disabled = false;
  if (untold) announce(sentence);
  untold = false;
}

/** @param {(string | null)[]} parts @param {Record<string, string>} keys */
const hashOf = (parts, keys) => [...parts, ...Object.entries(keys).map(([key, value]) => `${key}=${encodeURIComponent(value)}`), kept_in_hash]
  .filter(Boolean).join('&');

/** The page that was left, as the address names it. */
const leftAt = () => ['mode', 'view'].map((key) => (addressKey(key) ? `${key}=${encodeURIComponent(addressKey(key) ?? '')}` : null));

function writeAddress() {
  try {
    history.replaceState(history.state, '', `#${hashOf([addressLink(), ...leftAt()], choice.keys())}`);
  } catch {
    // Some frames forbid it: the page goes on, only the address is behind.
  }
  byId('back', HTMLAnchorElement).hash = hashOf([addressLink(), ...leftAt()], choice.keys(USUAL));
}

/** All of it anew. */
function begin() {
  const link = addressLink();
  const wanted = choice.choice();
  const theme = THEMES[paintedTheme()];
  // Paper is light.
  const themes = theme === 'light' ? [theme] : [theme, /** @type {const} */ ('light')];
  const finest = ['miss', 'inbound'].includes(wanted.mapped) ? FINEST : FINEST_FLOWN;
  delete document.documentElement.dataset.study;
  document.documentElement.dataset.paper = themes.length === 1 ? 'same' : 'apart';
  for (const button of Object.values(buttons)) button.disabled = true;
  says.dataset.waits = '';
  write(byId('study-numbers', HTMLElement), numbersHint(wanted));
  results = [];
  grid.begin((cell) => `./#${hashOf([linkAt(link, cell), 'mode=winds'], choice.keys(USUAL))}`);
  asked = CELLS.flatMap((_, i) => themes.map((__, k) => ({ i, for_paper: k > 0 })));
  queue.ask(CELLS.flatMap((cell) => themes.map((of) => ({ link: linkAt(link, cell), choice: { ...wanted, finest }, size_px: MAP_PX, theme: of }))));
}

/** The core, for what the maps do not say; null where it cannot be had. */
const core = load({ first: true }).catch((error) => {
  console.warn(error);
  return null;
});

async function describe() {
  const link = addressLink();
  const report = (await core)?.evaluate(link);
  if (!report || link !== addressLink()) return;
  write(byId('study-hold', HTMLElement), holdWords(report.fields));
  showProblems(report.problems.map(({ message }) => el('li', {}, message)));
}

function read() {
  choice.read();
  begin();
  writeAddress();
  describe();
}

window.addEventListener('hashchange', read);
// As a hash it would open another scene.
document.querySelector('a.skip')?.addEventListener('click', (event) => {
  event.preventDefault();
  byId('maps', HTMLElement).focus();
});
buttons.csv.addEventListener('click', () => saveCsv(results, addressLink(), core));
buttons.svg.addEventListener('click', () => {
  if (picture) saveSvg(results, picture, grid.image, [says.textContent ?? '', byId('study-hold', HTMLElement).textContent ?? '']);
});
mountTheme(begin);
byId('theme', HTMLElement).hidden = false;
read();
