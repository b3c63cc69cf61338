// What cases in every engine do alike, on the handle of engines.mjs.
import assert from 'node:assert/strict';
import { coreInNode, studyInNode } from './lesson.mjs';
import { countColour, readPng } from './png.mjs';

/** @typedef {import('./engines.mjs').Engine} Engine */

/**
 * @typedef {object} Case
 * @property {string} name
 * @property {(page: Engine, place: Place) => Promise<void>} run
 * @property {boolean} [canvas] Wants WebGL; skipped where the engine has none.
 * @property {RegExp} [complains] What the page may complain of.
 */

/**
 * @typedef {object} Place
 * @property {string} url Of the served page; ends with a slash.
 * @property {string} folder What is served there.
 */

export const core = await coreInNode();
export const study = await studyInNode();

/** The picture's two roles with a colour of their own, in `core/theme.cpp`. */
const INK = { wind: 0x7b2d6b, exact: 0x007858 };

/** @param {Engine} page @param {'core' | 'view'} state */
export async function isReady(page, state) {
  await page.waitFor((want) => document.documentElement.dataset.ready === want, state);
  await drawn(page);
}

/** Two frames: what was changed before has been read and drawn by then. @param {Engine} page */
export const drawn = (page) => page.evaluate(() => new Promise((done) =>
  requestAnimationFrame(() => requestAnimationFrame(() => done(null)))));

/**
 * The served page, as at its first visit but for what is stored. A page that is there already
 * is led to it by its address: a load costs more than most cases. `hash` is as the page writes it.
 * @param {Engine} page @param {string} url @param {{canvas?: boolean, hash?: string}} [how]
 */
export async function openLesson(page, url, { canvas = false, hash = '' } = {}) {
  const address = url + (canvas ? '' : '?webgl=false');
  if (await page.evaluate(() => location.href.replace(/#.*/, '')) !== address) {
    await page.open(`${address}#${hash}`);
    await isReady(page, canvas ? 'view' : 'core');
    return;
  }
  await page.evaluate((to) => { location.hash = to; }, hash);
  if (!/mode=/.test(hash)) {
    await page.waitFor((want) => globalThis.__lesson?.session.link() === want
      && [...document.querySelectorAll('section[id^="mode-"]')].every((mode) => !mode.checkVisibility()), hash);
  }
  await page.evaluate(() => {
    const scrub = /** @type {HTMLInputElement} */ (document.getElementById('scrub'));
    scrub.value = '0';
    scrub.dispatchEvent(new Event('input', { bubbles: true }));
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    scrollTo(0, 0);
  });
  await drawn(page);
}

/** @param {Engine} page */
export const link = (page) => page.evaluate(() => globalThis.__lesson?.session.link());

/** @param {Engine} page */
export const clock = (page) => page.evaluate(() => {
  const live = globalThis.__lesson?.session.live();
  if (!live) throw new Error('no lesson');
  return live;
});

/** @param {Engine} page @param {string} selector */
export const says = (page, selector) => page.evaluate((css) =>
  document.querySelector(css)?.textContent?.replace(/\s+/g, ' ').trim() ?? '', selector);

/** Where the picture stands in the window, whole pixels. @param {Engine} page */
const pictureBox = (page) => page.evaluate(() => {
  const { left, top, width, height } = /** @type {Element} */ (document.getElementById('picture')).getBoundingClientRect();
  return { x: Math.ceil(left), y: Math.ceil(top), width: Math.floor(width) - 1, height: Math.floor(height) - 1 };
});

/** The pixels of the picture. @param {Engine} page @returns {Promise<import('./png.mjs').Picture>} */
export async function pixels(page) {
  const [box, all] = [await pictureBox(page), readPng(await page.screenshot())];
  assert.ok(box.x + box.width <= all.width && box.y + box.height <= all.height, 'the picture is in the window');
  return { width: box.width, height: box.height, at: (x, y) => all.at(box.x + x, box.y + y) };
}

/** @param {import('./png.mjs').Picture} picture @param {string} what */
export function isDrawn(picture, what) {
  for (const [role, colour] of Object.entries(INK)) {
    assert.ok(countColour(picture, colour, 24) > 150, `${what} shows its ${role}`);
  }
}

/** The address as the page has written it. @param {Engine} page @param {string} hash */
export const hasHash = (page, hash) => page.waitFor((want) => location.hash === want, hash);

/** Plays the flight from its beginning for a little, and halts it. @param {Engine} page */
export async function flies(page) {
  await page.click('#play');
  await page.waitFor(() => {
    const live = globalThis.__lesson?.session.live();
    return live?.playing && live.t_s > live.start_s + 0.5;
  });
  await page.click('#play');
  await page.waitFor(() => globalThis.__lesson?.session.live().playing === false);
}

/** Begins a check, and answers its first question. @param {Engine} page */
export async function answerFirst(page) {
  await page.click('#practice-check');
  await page.waitFor(() => document.querySelector('#practice-form .lesson-commit'));
  assert.match(await says(page, '#practice-head'), /question 1 of 12/i);
  if (await page.evaluate(() => document.querySelector('#practice-answer') !== null)) {
    await page.click('#practice-answer');
    for (const key of '94') await page.key(key);
  }
  if (await page.evaluate(() => document.querySelector('#practice-form input[type=radio]') !== null)) {
    await page.click('#practice-form input[type=radio]');
  }
  await page.click('#practice-form .lesson-commit');
  await page.waitFor(() => document.getElementById('practice-verdict'));
  const { judged, words } = await page.evaluate(() => {
    const state = globalThis.__lesson?.core.tutor().state();
    return { judged: state?.judged?.right ?? null, words: state?.judged?.words[0] ?? '' };
  });
  assert.notEqual(judged, null);
  assert.equal(await says(page, '#practice-verdict .outcome'), words.replace(/\s+/g, ' '));
}
