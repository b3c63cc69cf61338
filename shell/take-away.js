// The picture as a file, and a handout of the case on paper; in Explore. The picture is what
// the core draws, never a copy of the canvas on the screen.
import { hashOf } from './address.js';
import { byId, write } from './dom.js';
import { handoutTrees } from './handout.js';
import { pageAddress } from './paper-parts.js';
import { printOnPaper } from './paper.js';
import { download } from './practice-store.js';
import { say } from './text.js';
import { paintedTheme } from './theme.js';

/** @typedef {import('./hub.js').Hub} Hub */

/** Pixels of a PNG for one of the picture's. */
const PNG_SCALE = 2;
const FONT = 'fonts/text-regular.woff2';
const THEMES = /** @type {const} */ (['light', 'dark', 'contrast_light', 'contrast_dark']);

/** The picture without its handles. @param {Hub} hub @param {typeof THEMES[number]} theme */
function pictureSvg({ session, change }, theme) {
  let changed = session.showHandles(false);
  const svg = session.svg(theme);
  changed |= session.showHandles(true);
  change(changed);
  return svg;
}

/** The letters' shapes as a data: address; null where they cannot be had. */
async function fontAddress() {
  try {
    const answer = await fetch(FONT);
    if (!answer.ok) return null;
    const bytes = new Uint8Array(await answer.arrayBuffer());
    return `data:font/woff2;base64,${btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''))}`;
  } catch {
    return null;
  }
}

/** Puts the font in, so that the picture needs nothing beside it. @param {string} svg @param {string | null} font */
export function standalone(svg, font) {
  if (!font) return svg;
  const style = `<style>@font-face{font-family:"Lesson Text";src:url("${font}") format("woff2")}</style>`;
  return svg.replace('</title>\n', (end) => `${end}${style}\n`);
}

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

/** @param {Hub} hub */
export function mountTakeAway(hub) {
  const failed = byId('take-failed', HTMLElement);
  const shown = async () => standalone(pictureSvg(hub, THEMES[paintedTheme()]), await fontAddress());
  byId('save-svg', HTMLButtonElement).addEventListener('click', async () => {
    download(await shown(), 'holding-entry.svg', 'image/svg+xml');
  });
  byId('save-png', HTMLButtonElement).addEventListener('click', async () => {
    failed.hidden = true;
    try {
      download(await pngOf(await shown()), 'holding-entry.png', 'image/png');
    } catch (error) {
      console.warn(error);
      write(failed, say('page.take.failed'));
      failed.hidden = false;
    }
  });
  byId('print-handout', HTMLButtonElement).addEventListener('click', () => {
    const { head, rest } = handoutTrees(hub.session.report(), pageAddress(hashOf(hub.link(), {})));
    const drawn = new DOMParser().parseFromString(pictureSvg(hub, 'light'), 'image/svg+xml').documentElement;
    drawn.setAttribute('class', 'paper-picture');
    printOnPaper([head, ...rest], [document.importNode(drawn, true)]);
  });
}
