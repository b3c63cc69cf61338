// An example of the module: questions go to a worker, its answers are drawn on a canvas. The
// same is said in words and in a table, for who cannot see the colours.
import { byId, direction, miss } from './common.js';

/** @typedef {import('./wind-map-worker.js').Patch} Patch */
/** @typedef {import('./wind-map-worker.js').Word} Word */

const STEP_DEG = 15;
const DIRECTIONS = Array.from({ length: 360 / STEP_DEG }, (_, i) => (i + 1) * STEP_DEG);
const STEP_KT = 5;
const SPEEDS = Array.from({ length: 6 }, (_, i) => (i + 1) * STEP_KT);
const TABLE_KT = 20;
/** Room for the directions about the map. */
const MARGIN_PX = 36;
/** Full colour from here on. */
const FULL_NM = 1;

const canvas = byId('map', HTMLCanvasElement);
const rule = byId('rule', HTMLSelectElement);
const hold = location.hash.replace(/^#/, '');
const worker = new Worker('wind-map-worker.js', { type: 'module' });
let job = 0;
/** @type {Patch[]} */
let patches = [];

/** @param {number | null} nm */
const inWords = (nm) => (nm === null ? 'never rolls out' : miss(nm));

/** The style sheet's colours, so that light and dark need no code. @param {string} name */
const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name);

/** A ring's part for each wind; north is up. */
function draw() {
  const scale = devicePixelRatio || 1;
  const size = canvas.clientWidth;
  canvas.width = canvas.height = Math.round(size * scale);
  const ctx = canvas.getContext('2d');
  if (!ctx) return;
  ctx.scale(scale, scale);
  ctx.translate(size / 2, size / 2);
  const ring = (size / 2 - MARGIN_PX) / (SPEEDS.length + 1);
  /** @param {number} deg */
  const angle = (deg) => ((deg - 90) * Math.PI) / 180;
  /** @param {Patch} patch */
  const outline = ({ from_deg, speed_kt }) => {
    const inner = (speed_kt / STEP_KT) * ring;
    ctx.beginPath();
    ctx.arc(0, 0, inner + ring, angle(from_deg - STEP_DEG / 2), angle(from_deg + STEP_DEG / 2));
    ctx.arc(0, 0, inner, angle(from_deg + STEP_DEG / 2), angle(from_deg - STEP_DEG / 2), true);
    ctx.closePath();
  };
  for (const patch of patches) {
    outline(patch);
    ctx.fillStyle = colour('--even');
    ctx.fill();
    if (patch.cross_nm === null) continue;
    ctx.globalAlpha = Math.min(1, Math.abs(patch.cross_nm) / FULL_NM);
    ctx.fillStyle = colour(patch.cross_nm < 0 ? '--past' : '--inside');
    ctx.fill();
    ctx.globalAlpha = 1;
  }
  ctx.fillStyle = colour('--quiet');
  ctx.font = '13px system-ui, sans-serif';
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  const outside = (SPEEDS.length + 1) * ring + MARGIN_PX / 2;
  for (const deg of [90, 180, 270, 360]) ctx.fillText(direction(deg), outside * Math.cos(angle(deg)), outside * Math.sin(angle(deg)));
}

function describe() {
  const flown = patches.flatMap(({ cross_nm, ...wind }) => (cross_nm === null ? [] : [{ cross_nm, ...wind }]));
  if (patches.length < DIRECTIONS.length * SPEEDS.length || !flown.length) return;
  const near = flown.filter(({ cross_nm }) => Math.abs(cross_nm) <= 0.25).length;
  const past = flown.reduce((a, b) => (b.cross_nm < a.cross_nm ? b : a));
  const short = flown.reduce((a, b) => (b.cross_nm > a.cross_nm ? b : a));
  /** @param {typeof past} wind */
  const at = (wind) => `${inWords(wind.cross_nm)}, in ${direction(wind.from_deg)} at ${wind.speed_kt} kt`;
  byId('summary', HTMLElement).textContent = `In ${near} of ${patches.length} winds the entry rolls out within a quarter of a mile of the course. `
    + `Farthest past, NM: ${at(past)}. Farthest short, NM: ${at(short)}.`;
  byId('rows', HTMLElement).replaceChildren(...patches.filter(({ speed_kt }) => speed_kt === TABLE_KT).map((patch) => {
    const row = document.createElement('tr');
    const head = document.createElement('th');
    head.scope = 'row';
    head.textContent = direction(patch.from_deg);
    row.append(head);
    row.insertCell().textContent = inWords(patch.cross_nm);
    return row;
  }));
}

function ask() {
  job += 1;
  patches = [];
  byId('summary', HTMLElement).textContent = 'Flying.';
  worker.postMessage({ job, link: `${hold}&rule=${rule.value}`, directions: DIRECTIONS, speeds: SPEEDS });
}

worker.addEventListener('message', (/** @type {MessageEvent<Word>} */ { data }) => {
  if ('failed' in data) {
    byId('summary', HTMLElement).textContent = `The module could not be loaded: ${data.failed}`;
    return;
  }
  if (data.job !== job) return; // an answer to an older question
  patches.push(...data.patches);
  draw();
  describe();
});
rule.addEventListener('change', ask);
addEventListener('resize', draw);
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', draw);
ask();
