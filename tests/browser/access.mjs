// What a machine can check of accessibility, for the tests that use it: axe's rules, text that
// is cut off, sizes of targets.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { drawn } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** All of WCAG 2.2 A and AA that a machine can see, and what axe holds good practice. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
/** The one rule for which colours matter. */
const COLOURS_ONLY = ['color-contrast'];

/**
 * What axe finds, one line each.
 * @param {Page} page @param {string[]} [rules] Only these.
 * @returns {Promise<string[]>}
 */
export async function violations(page, rules) {
  // The developer tools may run what the page's policy forbids to the page.
  if (!await page.evaluate(() => 'axe' in globalThis)) await page.evaluate(axe);
  return page.evaluate(async (runOnly) => {
    const { violations: found } = await /** @type {any} */ (globalThis).axe.run(document, { resultTypes: ['violations'], runOnly });
    return found.flatMap((/** @type {any} */ rule) => rule.nodes.map((/** @type {any} */ node) =>
      `${rule.id}: ${node.target.join(' ')}: ${node.failureSummary.replace(/\s+/g, ' ')}`));
  }, rules ? { type: 'rule', values: rules } : { type: 'tag', values: TAGS });
}

/** What axe finds in light and in dark. @param {Page} page */
export async function axeFaults(page) {
  /** @type {string[]} */
  const found = [];
  /** @type {[{colorScheme: 'light' | 'dark'}, string[]?][]} */
  const rounds = [[{ colorScheme: 'dark' }, COLOURS_ONLY], [{ colorScheme: 'light' }]];
  for (const [colours, rules] of rounds) {
    await page.emulateMedia(colours);
    await drawn(page);
    // A colour may be on its way to another.
    await page.evaluate(() => Promise.all(document.getAnimations().map((animation) => animation.finished)));
    found.push(...(await violations(page, rules)).map((fault) => `${JSON.stringify(colours)}: ${fault}`));
  }
  return found;
}

/** Light and dark. @param {Page} page @param {string} what */
export async function axeFindsNothing(page, what) {
  assert.deepEqual(await axeFaults(page), [], what);
}

/**
 * Text that is cut off, and what sticks out sideways.
 * @param {Page} page @returns {Promise<string[]>}
 */
export const cutOff = (page) => page.evaluate(() => {
  /** @type {string[]} */
  const found = [];
  const name = (/** @type {Element} */ el) => `${el.tagName.toLowerCase()}${el.id && `#${el.id}`} “${(el.textContent ?? '').trim().slice(0, 30)}”`;
  const hidden = [...document.querySelectorAll('body *')].filter((el) => getComputedStyle(el).clipPath !== 'none' && el.getBoundingClientRect().width <= 1);
  for (const el of document.querySelectorAll('body *')) {
    if (!(el instanceof HTMLElement) || !el.checkVisibility() || el.closest('#picture, .visually-hidden, .skip')) continue;
    if (el.closest('.study-frame')) continue; // a table of many columns is scrolled in its own frame
    const style = getComputedStyle(el);
    if (style.clipPath !== 'none') continue;
    if (el instanceof HTMLTextAreaElement || hidden.some((one) => one.contains(el))) continue; // it scrolls; for readers aloud
    const box = el.getBoundingClientRect();
    if (box.right > document.documentElement.clientWidth + 0.5 && box.width > 0) found.push(`${name(el)} sticks out to ${box.right}`);
    // What is to be scrolled in or copied from is not lost.
    if (el.matches('textarea, input[readonly], .box > input')) continue;
    const hides = style.overflowX !== 'visible' || style.overflowY !== 'visible';
    // A field of several lines is scrolled by its nature.
    const rolls = el instanceof HTMLTextAreaElement;
    if (hides && (el.scrollWidth > el.clientWidth + 1 || (!rolls && el.scrollHeight > el.clientHeight + 1))) {
      found.push(`${name(el)} is cut off: ${el.scrollWidth} in ${el.clientWidth}, ${el.scrollHeight} in ${el.clientHeight}`);
    }
    if (el instanceof HTMLInputElement && el.type === 'text' && el.scrollWidth > el.clientWidth + 1) {
      found.push(`${name(el)} is too narrow for “${el.value}”: ${el.scrollWidth} in ${el.clientWidth}`);
    }
    // A line of text outside the box that has it, where the box hides what is outside.
    if (el.childElementCount === 0 && el.textContent?.trim()) {
      const range = document.createRange();
      range.selectNodeContents(el);
      const text = range.getBoundingClientRect();
      for (let up = el.parentElement; up; up = up.parentElement) {
        // A number and its unit have their own room between the two buttons.
        if (getComputedStyle(up).overflowX === 'visible' && !up.matches('.box-middle')) continue;
        const frame = up.getBoundingClientRect();
        if (text.right > frame.right + 1 || text.left < frame.left - 1 || text.bottom > frame.bottom + 2 || text.top < frame.top - 2) {
          found.push(`${name(el)} leaves ${name(up)}`);
        }
      }
    }
  }
  return [...new Set(found)];
});

/** What does not fit the window. @param {Page} page @returns {Promise<string[]>} */
export async function misfits(page) {
  const sideways = await page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    return scrollWidth > clientWidth ? [`scrolls sideways: ${scrollWidth} in ${clientWidth}`] : [];
  });
  return [...await cutOff(page), ...sideways];
}

/** @param {Page} page @param {number[]} widths */
export async function fitsAt(page, widths) {
  for (const width of widths) {
    await page.setViewportSize({ width, height: 700 });
    await drawn(page);
    assert.deepEqual(await misfits(page), [], `${width} px wide`);
  }
}

/** Widths where the layout changes, and those of common screens. */
export const WIDTHS = [320, 390, 719, 720, 768, 999, 1000, 1024, 1440];

/** Wider text spacing, as a person may set it. @param {Page} page @param {boolean} [on] */
export async function spacedOut(page, on = true) {
  await page.evaluate((spaced) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }
      p { margin-bottom: 2em !important }`);
    document.adoptedStyleSheets = spaced ? [sheet] : [];
  }, on);
}

/**
 * Controls smaller than this in one direction; a control inside its label is as large as it.
 * @param {Page} page @param {string} which @param {number} least
 */
export const tooSmall = (page, which, least) => page.evaluate(([selector, px]) =>
  [...document.querySelectorAll(String(selector))].filter((el) => el.checkVisibility() && !el.closest('.skip, .visually-hidden')).map((el) => {
    const target = el.matches('input[type="radio"], input[type="checkbox"]') ? el.closest('label') ?? el : el;
    const field = target.closest('.box') && target instanceof HTMLInputElement ? target.closest('.box') ?? target : target;
    const box = field.getBoundingClientRect();
    return { name: el.id || el.getAttribute('aria-label') || `${el.getAttribute('name')} ${el.getAttribute('value')}` || el.textContent, w: box.width, h: box.height };
  }).filter(({ w, h }) => w < Number(px) - 0.01 || h < Number(px) - 0.01).map(({ name, w, h }) => `${name}: ${w} × ${h}`),
[which, least]);

