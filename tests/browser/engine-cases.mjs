// What every engine must do with the page. One row a case: its name, what it does, and where it
// cannot, by name, why not. Cases of one engine share a browser and a page, in this order;
// each opens what it needs. Others add their rows here or a table of their own to
// engines.test.mjs.
import assert from 'node:assert/strict';
import { GOLDEN, manyLinks } from './links.mjs';
import { PATIENCE_MS, WIND, coreInNode } from './lesson.mjs';
import { countChanged, countColour, readPng } from './png.mjs';

/** @typedef {import('./engines.mjs').Engine} Engine */
/** @typedef {import('./engines.mjs').EngineName} EngineName */

/**
 * @typedef {object} Case
 * @property {string} name
 * @property {(page: Engine, url: string) => Promise<void>} run `url` ends with a slash.
 * @property {Partial<Record<EngineName, string>>} [lacks] Engines that cannot do it, and why.
 * @property {boolean} [canvas] Wants WebGL; skipped where the engine has none.
 */

const core = await coreInNode();

/** The picture's two roles with a colour of their own, in `core/theme.cpp`. */
const INK = { wind: 0x7b2d6b, exact: 0x007858 };

/** @param {Engine} page @param {'core' | 'view'} state */
async function isReady(page, state) {
  await page.waitFor((want) => document.documentElement.dataset.ready === want, state);
  await drawn(page);
}

/** Two frames: what was changed before has been read and drawn by then. @param {Engine} page */
const drawn = (page) => page.evaluate(() => new Promise((done) =>
  requestAnimationFrame(() => requestAnimationFrame(() => done(null)))));

/** @param {Engine} page @param {string} address */
async function openSvg(page, address) {
  await page.open(address);
  await isReady(page, 'core');
}

/** @param {Engine} page */
const link = (page) => page.evaluate(() => globalThis.__lesson?.session.link());

/** @param {Engine} page */
const clock = (page) => page.evaluate(() => {
  const live = globalThis.__lesson?.session.live();
  if (!live) throw new Error('no lesson');
  return live;
});

/** @param {Engine} page @param {string} selector */
const says = (page, selector) => page.evaluate((css) =>
  document.querySelector(css)?.textContent?.replace(/\s+/g, ' ').trim() ?? '', selector);

/** Where the picture stands in the window, whole pixels. @param {Engine} page */
const pictureBox = (page) => page.evaluate(() => {
  const { left, top, width, height } = /** @type {Element} */ (document.getElementById('picture')).getBoundingClientRect();
  return { x: Math.ceil(left), y: Math.ceil(top), width: Math.floor(width) - 1, height: Math.floor(height) - 1 };
});

/** The pixels of the picture. @param {Engine} page @returns {Promise<import('./png.mjs').Picture>} */
async function pixels(page) {
  const [box, all] = [await pictureBox(page), readPng(await page.screenshot())];
  assert.ok(box.x + box.width <= all.width && box.y + box.height <= all.height, 'the picture is in the window');
  return { width: box.width, height: box.height, at: (x, y) => all.at(box.x + x, box.y + y) };
}

/** @param {import('./png.mjs').Picture} picture @param {string} what */
function isDrawn(picture, what) {
  for (const [role, colour] of Object.entries(INK)) {
    assert.ok(countColour(picture, colour, 24) > 150, `${what} shows its ${role}`);
  }
}

/** The address as the page has written it. @param {Engine} page @param {string} hash */
const hasHash = (page, hash) => page.waitFor((want) => location.hash === want, hash);

/** @type {Case[]} */
export const CASES = [
  {
    name: 'loads, and says what the core in Node says',
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false`);
      const truth = core.evaluate('');
      assert.equal(await says(page, '#summary'), truth.summary.replace(/\s+/g, ' '));
      assert.ok((await says(page, '#happens')).includes(truth.headline));
      assert.equal(await says(page, '#notice'), '');
      const asked = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
      assert.ok(asked.some((name) => name.endsWith('.wasm')));
      assert.deepEqual(asked.filter((name) => !name.startsWith(url)), [], 'nothing from elsewhere');
    },
  },
  {
    name: 'draws the SVG',
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false`);
      const svg = await page.evaluate(() => document.querySelector('#picture > svg')?.textContent ?? '');
      assert.match(svg, /wind 160° \/ 24 kt/);
      isDrawn(await pixels(page), 'the SVG');
    },
  },
  {
    name: 'draws the same on the canvas',
    canvas: true,
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false`);
      const as_svg = await pixels(page);
      await page.open(url);
      await isReady(page, 'view');
      await page.waitFor(() => !document.querySelector('#picture > svg'));
      await drawn(page);
      const painted = await pixels(page);
      isDrawn(painted, 'the canvas');
      const changed = countChanged(as_svg, painted) / (painted.width * painted.height);
      assert.ok(changed < 0.03, `${(100 * changed).toFixed(1)} % of the pixels are others`);
    },
  },
  ...['', '?webgl=false'].map(/** @returns {Case} */ (query) => ({
    name: `the wind is dragged on the ${query ? 'SVG' : 'canvas'}`,
    canvas: !query,
    async run(page, url) {
      await page.open(url + query);
      await isReady(page, query ? 'core' : 'view');
      const before = await link(page);
      const box = await page.evaluate(() => {
        const { left, top } = /** @type {Element} */ (document.getElementById('picture')).getBoundingClientRect();
        return { left, top };
      });
      const at = await page.evaluate((which) => globalThis.__lesson?.session.handle(which), WIND);
      assert.ok(at);
      const from = { x: box.left + at.x, y: box.top + at.y };
      await page.drag(from, { x: from.x + 14, y: from.y + 9 });
      await page.waitFor((was) => globalThis.__lesson?.session.link() !== was, before);
      const now = await link(page) ?? '';
      assert.match(now, /^wind=\d+\/\d+$/, 'the wind alone');
      await hasHash(page, `#${now}`);
      const truth = core.evaluate(now);
      assert.equal(await says(page, '#summary'), truth.summary.replace(/\s+/g, ' '));
      assert.ok((await says(page, '#happens')).includes(truth.headline));
      await page.click('#undo');
      await page.waitFor((was) => globalThis.__lesson?.session.link() === was, before);
    },
  })),
  {
    name: 'flies, and rests at the end',
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false`);
      await page.evaluate(() => {
        const scrub = /** @type {HTMLInputElement} */ (document.getElementById('scrub'));
        scrub.value = String(Number(scrub.max) - 5);
        scrub.dispatchEvent(new Event('input', { bubbles: true }));
      });
      const from = await clock(page);
      assert.equal(from.playing, false);
      await page.click('#play');
      await page.waitFor((was) => (globalThis.__lesson?.session.live().t_s ?? 0) > was, from.t_s);
      await page.waitFor(() => globalThis.__lesson?.session.live().playing === false);
      const to = await clock(page);
      assert.equal(to.t_s, to.end_s);
      // At rest no frame is asked for.
      await page.waitFor(() => new Promise((done) => {
        const before = globalThis.__lesson?.frames();
        let left = 12;
        const look = () => {
          if (globalThis.__lesson?.frames() !== before) done(false);
          else if (--left === 0) done(true);
          else requestAnimationFrame(look);
        };
        look();
      }));
    },
  },
  {
    name: 'is used by keyboard: a field, the next one, and the flight’s clock',
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false`);
      await page.evaluate(() => {
        const field = /** @type {HTMLInputElement} */ (document.getElementById('f-inbound'));
        for (let el = field.parentElement; el; el = el.parentElement) if (el instanceof HTMLDetailsElement) el.open = true;
        field.focus();
        field.select();
      });
      for (const key of '251') await page.key(key);
      await page.key('Tab');
      await hasHash(page, '#inbound=251');
      const next = await page.evaluate(() => ({ id: document.activeElement?.id, tag: document.activeElement?.tagName ?? '' }));
      assert.notEqual(next.id, 'f-inbound');
      assert.match(next.tag, /^(INPUT|BUTTON|SELECT)$/);
      await page.evaluate(() => document.getElementById('scrub')?.focus());
      const { t_s } = await clock(page);
      await page.key('ArrowRight');
      await page.waitFor((was) => globalThis.__lesson?.session.live().t_s === was + 1, t_s);
    },
  },
  {
    name: 'a step of the lesson is answered',
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false#mode=lesson&step=join`);
      await page.waitFor(() => document.querySelector('.lesson-commit'));
      assert.equal(await page.evaluate(() => document.getElementById('lesson-said')), null);
      await page.click('.lesson-option:nth-of-type(3) input');
      await page.click('.lesson-commit');
      await page.waitFor(() => document.getElementById('lesson-said'));
      assert.ok(await page.evaluate(() => document.getElementById('lesson-said')?.classList.contains('right')), 'the third is right');
      assert.equal(await page.evaluate(() => document.activeElement?.id), 'lesson-said');
      await page.waitFor(() => (globalThis.__lesson?.session.live().t_s ?? 0) > 0);
      await page.click('.lesson-next');
      await page.waitFor(() => location.hash.includes('step=side'));
      await page.waitFor(() => document.getElementById('lesson-number'));
    },
  },
  {
    name: 'a check is begun, and an answer judged',
    async run(page, url) {
      const code = core.tutor().newCode(5);
      await openSvg(page, `${url}?webgl=false#mode=practice&set=mixed&code=${code}`);
      await page.waitFor((want) => /** @type {HTMLInputElement} */ (document.getElementById('practice-code')).value === want, code);
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
      assert.equal(await page.evaluate(() => document.activeElement?.id), 'practice-verdict');
      await page.click('#practice-next');
      await page.waitFor(() => /question 2 of 12/i.test(document.getElementById('practice-head')?.textContent ?? ''));
    },
  },
  {
    name: 'address to scene to address',
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false`);
      for (const [given, written] of GOLDEN) {
        await page.evaluate((to) => { location.hash = to; }, given);
        await page.waitFor((want) => globalThis.__lesson?.session.link() === want, written);
        await hasHash(page, written && `#${written}`);
      }
      const [given, written] = GOLDEN[16];
      await openSvg(page, `${url}?webgl=false#${given}`);
      assert.equal(await link(page), written);
      await page.evaluate(() => { location.hash = 'inbound=100'; });
      await page.waitFor(() => globalThis.__lesson?.session.link() === 'inbound=100');
      await page.evaluate(() => history.back());
      await page.waitFor((want) => globalThis.__lesson?.session.link() === want, written);
    },
  },
  {
    name: 'the same numbers as in Node, to the last byte',
    async run(page, url) {
      await openSvg(page, `${url}?webgl=false`);
      const links = [...GOLDEN.map(([given]) => given), ...manyLinks(30, 11)];
      const there = await page.evaluate((all) =>
        all.map((/** @type {string} */ it) => JSON.stringify(globalThis.__lesson?.core.evaluate(it))), links);
      assert.equal(there.length, links.length);
      for (const [i, it] of links.entries()) assert.equal(there[i], JSON.stringify(core.evaluate(it)), it);
      assert.ok(new Set(there).size > 40, 'and not all alike');
      const picture = await page.evaluate((it) => globalThis.__lesson?.core.svg(it, { width: 800, height: 600 }), links[40]);
      assert.equal(picture, core.svg(links[40], { width: 800, height: 600 }));
    },
  },
];

/** Longest that one case may take. */
export const CASE_MS = 3 * PATIENCE_MS;
