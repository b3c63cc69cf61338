// The page by the keys alone, as a person goes through it: every stop of Tab is looked at for
// the focus being seen, standing out, and not lying under something else.
import assert from 'node:assert/strict';

/** @typedef {import('./lesson.mjs').Page} Page */

/** No page has more stops than this. */
const MOST_STOPS = 150;

/**
 * What has the focus, and what is wrong with how it is seen. Empty name: nothing has it.
 * @param {Page} page @param {string} [wanted] Selector.
 * @returns {Promise<{name: string, there: boolean, wrong: string}>}
 */
export const focusOn = (page, wanted) => page.evaluate((selector) => {
  const el = document.activeElement;
  if (!el || el === document.body) return { name: '', there: false, wrong: '' };
  const there = selector !== undefined && el.matches(selector);
  const name = el.id ? `#${el.id}` : `${el.tagName.toLowerCase()} “${(el.getAttribute('aria-label') ?? el.textContent ?? '').trim().slice(0, 40)}”`;
  // A part of the page that has the focus only to be gone on from is no stop, and has no ring.
  if (/** @type {HTMLElement} */ (el).tabIndex < 0) return { name, there, wrong: '' };
  // The ring may be drawn round the box, the label or the row of choices.
  const target = el.closest('.segment, .box, label') ?? el;
  const box = target.getBoundingClientRect();
  if (box.width === 0 || box.bottom <= 0 || box.top >= innerHeight) return { name, there, wrong: 'is not in the window' };
  const points = [0.1, 0.5, 0.9].flatMap((x) => [0.2, 0.5, 0.8].map((y) => ({ x: box.left + x * box.width, y: box.top + y * box.height })))
    .filter(({ x, y }) => x >= 0 && y >= 0 && x < innerWidth && y < innerHeight);
  const seen = points.some(({ x, y }) => {
    const top = document.elementFromPoint(x, y);
    return top !== null && (target.contains(top) || top.contains(target));
  });
  if (!seen) return { name, there, wrong: 'lies under something' };

  /** @param {string} colour */
  const channels = (colour) => colour.match(/[\d.]+/g)?.map(Number) ?? [0, 0, 0, 0];
  /** @param {number[]} rgb */
  const luminance = (rgb) => rgb.slice(0, 3).map((v) => v / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
    .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
  /** @param {Element | null} from */
  const behind = (from) => {
    for (let up = from; up; up = up.parentElement) {
      const colour = channels(getComputedStyle(up).backgroundColor);
      if (colour.length === 3 || colour[3] > 0.5) return colour;
    }
    return [255, 255, 255];
  };
  const rings = [el, el.nextElementSibling, el.closest('.box'), el.closest('.segments'), el.closest('label')].filter((ring) => ring !== null);
  const ratios = rings.flatMap((ring) => {
    const style = getComputedStyle(ring);
    if (style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2) return [];
    const [light, dark] = [luminance(channels(style.outlineColor)), luminance(behind(ring.parentElement))].sort((a, b) => b - a);
    return [(light + 0.05) / (dark + 0.05)];
  });
  const best = Math.max(0, ...ratios);
  return { name, there, wrong: best < 3 ? `has a ring of ${best.toFixed(1)}:1` : '' };
}, wanted);

/** @param {Page} page */
export function walker(page) {
  /** @param {string} selector @param {string} key */
  async function by(selector, key) {
    /** @type {string[]} */
    const met = [];
    for (let i = 0; i < MOST_STOPS; ++i) {
      const { name, there, wrong } = await focusOn(page, selector);
      if (name) assert.equal(wrong, '', `${name} ${wrong}, on the way to ${selector}`);
      if (there) return;
      met.push(name);
      await page.keyboard.press(key);
    }
    assert.fail(`${key} never comes to ${selector}; last ${met.slice(-5).join(', ')}`);
  }

  return {
    /** On by Tab until it has the focus. @param {string} selector */
    to: (selector) => by(selector, 'Tab'),
    /** Back by Shift+Tab. @param {string} selector */
    back: (selector) => by(selector, 'Shift+Tab'),
    /** Opens a mode by its link, on by Tab or back by Shift+Tab; returns once the mode has come. @param {string} mode @param {'Tab' | 'Shift+Tab'} [key] */
    async open(mode, key = 'Tab') {
      await by(`#to-${mode}`, key);
      await page.keyboard.press('Enter');
      // Until it has come, what was open can be walked through, and may go from under the focus.
      await page.locator(`#mode-${mode}`).waitFor();
    },
    /** @param {...string} keys */
    async press(...keys) {
      for (const key of keys) await page.keyboard.press(key);
    },
    /** In place of what stands there. @param {string} words */
    async write(words) {
      await page.keyboard.press('Control+A');
      await page.keyboard.type(words);
    },
    /** Waits until the focus is where the action leaves it. @param {string} selector */
    async landsOn(selector) {
      await page.waitForFunction((want) => document.activeElement?.matches(want), selector)
        .catch(async () => assert.fail(`the focus is on ${(await focusOn(page)).name || 'nothing'}, not on ${selector}`));
    },
  };
}
