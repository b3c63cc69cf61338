// What every engine must do with the page. One row a case. Cases of one engine share a browser
// and a page, in this order: first what needs no canvas. Where the page may live is in
// engine-places.mjs.
import assert from 'node:assert/strict';
import { answerFirst, clock, core, drawn, hasHash, isDrawn, isReady, link, openLesson, pixels, says, study } from './engine-steps.mjs';
import { picturesOf } from '../same-pictures.mjs';
import { EVERYWHERE, GOLDEN } from './links.mjs';
import { PATIENCE_MS, WIND, isStill } from './lesson.mjs';
import { countChanged } from './png.mjs';

/** @typedef {import('./engine-steps.mjs').Case} Case */

/** @param {boolean} canvas @returns {Case} */
const aDrag = (canvas) => ({
  name: `the wind is dragged on the ${canvas ? 'canvas' : 'SVG'}`,
  canvas,
  async run(page, { url }) {
    await openLesson(page, url, { canvas });
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
});

/** @type {Case[]} */
export const CASES = [
  {
    name: 'loads, and says what the core in Node says',
    async run(page, { url }) {
      await openLesson(page, url);
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
    async run(page, { url }) {
      await openLesson(page, url);
      const svg = await page.evaluate(() => document.querySelector('#picture > svg')?.textContent ?? '');
      assert.match(svg, /wind 160° \/ 24 kt/);
      isDrawn(await pixels(page), 'the SVG');
    },
  },
  aDrag(false),
  {
    name: 'flies, and rests at the end',
    async run(page, { url }) {
      await openLesson(page, url);
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
      await page.waitFor(isStill);
    },
  },
  {
    name: 'is used by keyboard: a field, the next one, and the flight’s clock',
    async run(page, { url }) {
      await openLesson(page, url);
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
    async run(page, { url }) {
      await openLesson(page, url, { hash: 'mode=lesson&step=join' });
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
    async run(page, { url }) {
      const code = core.tutor().newCode(5);
      await openLesson(page, url, { hash: `mode=practice&set=mixed&code=${code}` });
      await page.waitFor((want) => /** @type {HTMLInputElement} */ (document.getElementById('practice-code')).value === want, code);
      await answerFirst(page);
      assert.equal(await page.evaluate(() => document.activeElement?.id), 'practice-verdict');
      await page.click('#practice-next');
      await page.waitFor(() => /question 2 of 12/i.test(document.getElementById('practice-head')?.textContent ?? ''));
    },
  },
  {
    name: 'maps all winds, and the wind is moved on the map',
    async run(page, { url }) {
      await openLesson(page, url, { hash: 'mode=winds&cloud=1' });
      await page.waitFor(() => document.getElementById('winds-map')?.dataset.whole === 'true');
      study.scene('');
      study.map.begin({ finest: 2 });
      while (!study.map.work(100000));
      const { share } = study.map.info();
      assert.ok((await says(page, '#winds-share')).includes(`${Math.round(100 * share)} %`), await says(page, '#winds-share'));
      await page.waitFor(() => document.querySelector('#winds-cloud-shares li') && document.querySelector('.cloud-layer'));
      await page.evaluate(() => document.getElementById('winds-point')?.focus());
      await page.key('ArrowRight');
      await page.waitFor(() => globalThis.__lesson?.session.link() === 'wind=165/24');
      await page.waitFor(() => location.hash.includes('wind=165/24'));
      await page.waitFor(isStill);
    },
  },
  {
    name: 'address to scene to address',
    async run(page, { url }) {
      await openLesson(page, url);
      // In one go: a round trip each would cost more than the links.
      const wrong = await page.evaluate(async (all, patience_ms) => {
        for (const [given, written] of all) {
          location.hash = given;
          const until = Date.now() + patience_ms;
          while (globalThis.__lesson?.session.link() !== written || location.hash !== (written && `#${written}`)) {
            if (Date.now() > until) return { given, link: globalThis.__lesson?.session.link(), hash: location.hash };
            await new Promise((done) => { setTimeout(done, 5); });
          }
        }
        return null;
      }, GOLDEN, PATIENCE_MS);
      assert.equal(wrong, null);
      const [given, written] = GOLDEN[16];
      await page.open(`${url}?webgl=false#${given}`);
      await isReady(page, 'core');
      assert.equal(await link(page), written);
      await page.evaluate(() => { location.hash = 'inbound=100'; });
      await page.waitFor(() => globalThis.__lesson?.session.link() === 'inbound=100');
      await page.evaluate(() => history.back());
      await page.waitFor((want) => globalThis.__lesson?.session.link() === want, written);
    },
  },
  {
    name: 'the same reports and pictures as in Node, to the last byte',
    async run(page, { url }) {
      await openLesson(page, url);
      assert.ok(EVERYWHERE.length >= 50, `${EVERYWHERE.length} links`);
      // In a core of its own: the page's session stays the page's.
      const reports = await page.evaluate(async (rows) => {
        const { load } = await import(new URL('core.mjs', location.href).href);
        const own = await load();
        Object.assign(globalThis, { ownCore: own });
        return rows.map((/** @type {{link: string}} */ { link: it }) => JSON.stringify(own.evaluate(it)));
      }, EVERYWHERE);
      const pictures = await page.evaluate(picturesOf, null, EVERYWHERE);
      const here = picturesOf(core, EVERYWHERE);
      for (const [i, { link: it, layers }] of EVERYWHERE.entries()) {
        assert.equal(reports[i], JSON.stringify(core.evaluate(it)), `report of ${it}`);
        assert.equal(pictures[i], here[i], `picture of ${it} with ${layers}`);
      }
      assert.equal(new Set(pictures).size, EVERYWHERE.length, 'and no two alike');
    },
  },
  {
    name: 'draws the same on the canvas',
    canvas: true,
    async run(page, { url }) {
      await openLesson(page, url);
      const as_svg = await pixels(page);
      await openLesson(page, url, { canvas: true });
      await page.waitFor(() => !document.querySelector('#picture > svg'));
      await drawn(page);
      const painted = await pixels(page);
      isDrawn(painted, 'the canvas');
      const changed = countChanged(as_svg, painted) / (painted.width * painted.height);
      assert.ok(changed < 0.03, `${(100 * changed).toFixed(1)} % of the pixels are others`);
    },
  },
  aDrag(true),
];
