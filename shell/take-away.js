// The picture as a file, and on paper: a handout of the case in Explore, the picture beside its
// words in the other modes. It is what the core draws, never a copy of the canvas on the screen,
// which browsers print empty.
import { hashOf } from './address.js';
import { byId, svgNode, write } from './dom.js';
import { handoutTree } from './handout.js';
import { isHidden } from './instructor.js';
import { toNode } from './markup.js';
import { pageAddress } from './paper-parts.js';
import { layPaper, paperLies, printOnPaper } from './paper.js';
import { download } from './practice-store.js';
import { say } from './text.js';
import { THEMES, paintedTheme } from './theme.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').Core} Core */

/** Pixels of a PNG for one of the picture's. */
const PNG_SCALE = 2;
/** Files of the picture's letters by their weight. */
const FONTS = { 400: 'fonts/text-regular.woff2', 600: 'fonts/text-semibold.woff2' };
/** The handout's picture in CSS pixels: as wide as A4 and Letter leave room, letters in their own size. */
const PAPER_PICTURE = { width: 660, height: 330 };

/** The picture without its handles. @param {Hub} hub @param {typeof THEMES[number]} theme */
function pictureSvg({ session, change }, theme) {
  // Nothing changes where a mode has them off.
  const changed = session.showHandles(false);
  const svg = session.svg(theme);
  if (changed) change(changed | session.showHandles(true));
  return svg;
}

/** "hold-238-left-wind-310-30": the case it shows. @param {Hub} hub */
function fileName({ session }) {
  const { inbound, turns, wind } = session.report().fields;
  return `hold-${inbound}-${turns}-wind-${wind.replace('/', '-')}`;
}

/** The letters' shapes, each a rule with a data: address; without those that cannot be had. */
async function fontRules() {
  const rules = await Promise.all(Object.entries(FONTS).map(async ([weight, file]) => {
    try {
      const answer = await fetch(file);
      if (!answer.ok) return '';
      const bytes = new Uint8Array(await answer.arrayBuffer());
      const data = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
      return `@font-face{font-family:"Lesson Text";font-weight:${weight};src:url("data:font/woff2;base64,${data}") format("woff2")}`;
    } catch {
      return '';
    }
  }));
  return rules.join('');
}

/** With a style of its own, so that the picture needs nothing beside it. @param {string} svg @param {string} rules */
const standalone = (svg, rules) => (rules ? svg.replace('</title>\n', (end) => `${end}<style>${rules}</style>\n`) : svg);

/** @param {string} svg @returns {Promise<Blob>} */
async function pngOf(svg) {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(image.naturalWidth * PNG_SCALE);
    canvas.height = Math.round(image.naturalHeight * PNG_SCALE);
    const context = canvas.getContext('2d');
    if (!context) throw new Error('no 2d context');
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise((/** @type {(b: Blob | null) => void} */ done) => canvas.toBlob(done, 'image/png'));
    if (!blob) throw new Error('no PNG');
    return blob;
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** @param {Hub} hub @param {Core} core */
function handout(hub, core) {
  const link = hub.link();
  const report = hub.session.report();
  const node = toNode(handoutTree(report, pageAddress(hashOf(link, {}))));
  const place = node instanceof Element ? node.querySelector('.paper-picture') : null;
  const picture = svgNode(core.svg(link, { ...PAPER_PICTURE, theme: 'light', handles: false }));
  for (const [hidden, role] of [['exact', '.r-exact'], ['outcome', '.r-miss']]) {
    if (isHidden(hidden)) for (const drawn of picture.querySelectorAll(role)) drawn.remove();
  }
  const words = picture.querySelector('title');
  if (words) words.textContent = report.summary;
  place?.append(picture);
  return [node];
}

/** @param {Hub} hub @param {Core} core */
export function takeAway(hub, core) {
  const failed = byId('take-failed', HTMLElement);
  const shown = async () => standalone(pictureSvg(hub, THEMES[paintedTheme()]), await fontRules());

  const printed = byId('picture-printed', HTMLElement);
  window.addEventListener('beforeprint', () => {
    if (paperLies()) return;
    if ((document.body.dataset.mode ?? 'explore') === 'explore') layPaper(handout(hub, core));
    else printed.replaceChildren(svgNode(pictureSvg(hub, 'light')));
  });
  window.addEventListener('afterprint', () => printed.replaceChildren());
  document.documentElement.dataset.paper = 'ready';
  return {
    async saveSvg() {
      download(await shown(), `${fileName(hub)}.svg`, 'image/svg+xml');
    },
    async savePng() {
      failed.hidden = true;
      try {
        download(await pngOf(await shown()), `${fileName(hub)}.png`, 'image/png');
      } catch (error) {
        console.warn(error);
        write(failed, say('page.take.failed'));
        failed.hidden = false;
      }
    },
    async printHandout() {
      printOnPaper(handout(hub, core));
    },
  };
}
