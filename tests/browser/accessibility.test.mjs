// What a machine can check of accessibility: axe's rules, names, reflow, text spacing, sizes
// of targets.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { drawn, enter, lessons, report, unfold } from './lesson.mjs';

const lesson = await lessons();
const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** @typedef {import('./lesson.mjs').Page} Page */

/** What axe finds, one line each. @param {Page} page @returns {Promise<string[]>} */
async function violations(page) {
  // The developer tools may run what the page's policy forbids to the page.
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { violations: found } = await /** @type {any} */ (globalThis).axe.run(document, { resultTypes: ['violations'] });
    return found.flatMap((/** @type {any} */ rule) => rule.nodes.map((/** @type {any} */ node) =>
      `${rule.id}: ${node.target.join(' ')}: ${node.failureSummary.replace(/\s+/g, ' ')}`));
  });
}

const WIDE = { width: 1280, height: 860 };
const PHONE = { width: 390, height: 844 };

/** @param {Page} page */
async function unfolded(page) {
  await unfold(page);
  if (!await page.locator('#plans-more').isVisible()) await page.locator('#more-plans').click();
  await drawn(page);
}

/** @param {Page} page */
async function mistaken(page) {
  await unfold(page);
  await enter(page, 'inbound', '400');
  await enter(page, 'bank', '99');
  await page.locator('#problem-bank').waitFor({ state: 'visible' });
  await enter(page, 'heading', '118');
  await drawn(page);
}

/** Light, dark and forced colours. @param {Page} page @param {string} what */
async function axeFindsNothing(page, what) {
  for (const colours of /** @type {const} */ ([{ colorScheme: 'light' }, { colorScheme: 'dark' },
    { colorScheme: 'dark', forcedColors: 'active' }])) {
    await page.emulateMedia(colours);
    await drawn(page);
    // A colour may be on its way to another.
    await page.evaluate(() => Promise.all(document.getAnimations().map((animation) => animation.finished)));
    assert.deepEqual(await violations(page), [], `${what}, ${JSON.stringify(colours)}`);
  }
}

lesson.test('axe finds nothing on a wide page', { viewport: WIDE }, async (page) => {
  await axeFindsNothing(page, 'as it opens');
});

lesson.test('axe finds nothing on a wide page with errors, without the canvas', { at: '?webgl=false', viewport: WIDE }, async (page) => {
  await mistaken(page);
  await axeFindsNothing(page, 'mistaken');
});

lesson.test('axe finds nothing on a phone, all unfolded', { viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
  await unfolded(page);
  await axeFindsNothing(page, 'unfolded');
});

lesson.test('axe does find what is wrong', { at: '?webgl=false' }, async (page) => {
  await page.evaluate(() => document.querySelector('main')?.append(document.createElement('button')));
  assert.match((await violations(page)).join('\n'), /^button-name: main > button: /m);
});

for (const at of ['', '?webgl=false']) {
  lesson.test(`the ${at ? 'SVG' : 'canvas'} is an image named by the summary, which follows`, { at }, async (page) => {
    const name = async () => page.getByRole('img', { name: (await report(page)).summary, exact: true });
    assert.equal(await (await name()).count(), 1);
    await enter(page, 'wind-from', '200');
    await (await name()).waitFor();
    assert.match((await report(page)).summary, /200/);
  });
}

/**
 * Text that is cut off, and what sticks out sideways.
 * @param {Page} page @returns {Promise<string[]>}
 */
const cutOff = (page) => page.evaluate(() => {
  /** @type {string[]} */
  const found = [];
  const name = (/** @type {Element} */ el) => `${el.tagName.toLowerCase()}${el.id && `#${el.id}`} “${(el.textContent ?? '').trim().slice(0, 30)}”`;
  for (const el of document.querySelectorAll('body *')) {
    if (!(el instanceof HTMLElement) || !el.checkVisibility() || el.closest('#picture, .visually-hidden, .skip')) continue;
    const style = getComputedStyle(el);
    if (style.clipPath !== 'none') continue;
    const box = el.getBoundingClientRect();
    if (box.right > document.documentElement.clientWidth + 0.5 && box.width > 0) found.push(`${name(el)} sticks out to ${box.right}`);
    const hides = style.overflowX !== 'visible' || style.overflowY !== 'visible';
    if (hides && (el.scrollWidth > el.clientWidth + 1 || el.scrollHeight > el.clientHeight + 1)) {
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

/** Long numbers, all unfolded, every field that can be wrong wrong. @param {Page} page */
async function full(page) {
  await unfolded(page);
  await page.evaluate(() => {
    location.hash = 'inbound=300.25&arrive=122.75&wind=222.25/44.5&altitude=12500&laps=2&bank=27.5&heading=284.5&time=1:45&leg=1:15&variation=12.5W';
  });
  await page.waitForFunction(() => globalThis.__lesson?.session.link().includes('laps=2'));
  await enter(page, 'bank', '99');
  await enter(page, 'leg', 'some time');
  await enter(page, 'wind-kt', '999');
  await drawn(page);
}

/** @param {Page} page @param {number[]} widths */
async function fitsAt(page, widths) {
  for (const width of widths) {
    await page.setViewportSize({ width, height: 700 });
    await drawn(page);
    assert.deepEqual(await cutOff(page), [], `${width} px wide`);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth),
      `nothing to scroll sideways, ${width} px wide`);
  }
}

const WIDTHS = [320, 390, 719, 720, 768, 999, 1000, 1024, 1440];

lesson.test('nothing is cut off or sticks out, at any width', { at: '?webgl=false' }, async (page) => {
  await fitsAt(page, WIDTHS);
});

lesson.test('nor with long numbers, errors, and all unfolded', { at: '?webgl=false' }, async (page) => {
  await full(page);
  await fitsAt(page, WIDTHS);
});

lesson.test('nor with wider text spacing', { at: '?webgl=false' }, async (page) => {
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }
      p { margin-bottom: 2em !important }`);
    document.adoptedStyleSheets = [sheet];
  });
  await fitsAt(page, [320, 768, 1280]);
  await unfolded(page);
  await fitsAt(page, [320, 768, 1280]);
});

/**
 * Controls smaller than this in one direction; a control inside its label is as large as it.
 * @param {Page} page @param {string} which @param {number} least
 */
const tooSmall = (page, which, least) => page.evaluate(([selector, px]) =>
  [...document.querySelectorAll(String(selector))].filter((el) => el.checkVisibility() && !el.closest('.skip, .visually-hidden')).map((el) => {
    const target = el.matches('input[type="radio"], input[type="checkbox"]') ? el.closest('label') ?? el : el;
    const field = target.closest('.box') && target instanceof HTMLInputElement ? target.closest('.box') ?? target : target;
    const box = field.getBoundingClientRect();
    return { name: el.id || el.getAttribute('aria-label') || `${el.getAttribute('name')} ${el.getAttribute('value')}` || el.textContent, w: box.width, h: box.height };
  }).filter(({ w, h }) => w < Number(px) - 0.01 || h < Number(px) - 0.01).map(({ name, w, h }) => `${name}: ${w} × ${h}`),
[which, least]);

lesson.test('every target is 24 px or more', { at: '?webgl=false' }, async (page) => {
  await full(page);
  assert.deepEqual(await tooSmall(page, 'a[href], button, input, select, summary', 24), []);
});

lesson.test('by touch the clock, the steps and the choices are 44 px or more',
  { at: '?webgl=false', viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
    await unfolded(page);
    assert.deepEqual(await tooSmall(page, 'button, input, select, summary', 44), []);
  });

lesson.test('the page has one main heading, landmarks, and a language', { at: '?webgl=false' }, async (page) => {
  assert.equal(await page.locator('html').getAttribute('lang'), 'en');
  assert.equal(await page.locator('h1').count(), 1);
  for (const role of /** @type {const} */ (['banner', 'main', 'contentinfo'])) assert.equal(await page.getByRole(role).count(), 1, role);
  assert.equal(await page.getByRole('table').count(), 1);
  assert.ok(await page.getByRole('rowheader').count() >= 5);
});
