// At rest the page does nothing: no frame, no timer, for three seconds.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { PATIENCE_MS, SMALL, addressSettled, atRest, lessons, pictureBox } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

const WINDOW_MS = 3000;

/** Counts what the page asks the browser to call. @param {Page} page */
const counting = (page) => page.addInitScript(() => {
  const asked = { frames: 0, fired: 0 };
  Object.assign(globalThis, { asked });
  const { requestAnimationFrame: frame, setTimeout: later, setInterval: again } = globalThis;
  /** @param {FrameRequestCallback} then */
  globalThis.requestAnimationFrame = (then) => {
    asked.frames += 1;
    return frame(then);
  };
  /** @param {Function} then @param {number} [ms] @param {...any} rest */
  const timer = (then, ms, ...rest) => later((/** @type {any[]} */ ...args) => {
    asked.fired += 1;
    then(...args);
  }, ms, ...rest);
  globalThis.setTimeout = /** @type {any} */ (timer);
  globalThis.setInterval = /** @type {any} */ ((/** @type {Function} */ then, /** @type {number} */ ms) => again(() => {
    asked.fired += 1;
    then();
  }, ms));
});

/** @param {Page} page */
const counts = (page) => page.evaluate(() => ({
  .../** @type {any} */ (globalThis).asked,
  painted: globalThis.__lesson?.viewFrames(),
  loop: globalThis.__lesson?.frames(),
}));

/** @type {[state: string, at: string, reach: (page: Page) => Promise<void>][]} */
const STATES = [
  ['just loaded', '', async () => {}],
  ['just loaded, without WebGL', '?webgl=false', async () => {}],
  ['after a flight has ended', '', async (page) => {
    await page.locator('#speed').selectOption('30');
    await page.locator('#scrub').press('End');
    await page.locator('#scrub').press('PageDown');
    await page.locator('#play').click();
    await page.waitForFunction(() => {
      const now = globalThis.__lesson?.session.live();
      return now && !now.playing && now.t_s === now.end_s;
    });
  }],
  ['paused in flight', '', async (page) => {
    await page.locator('#play').click();
    await page.waitForFunction(() => (globalThis.__lesson?.session.live().t_s ?? -99) > -29);
    await page.locator('#play').click();
  }],
  ['after a field was typed in and the picture was dragged', '', async (page) => {
    await page.locator('#f-wind-kt').fill('31');
    const box = await pictureBox(page);
    await page.mouse.move(box.x + 200, box.y + 200);
    await page.mouse.down();
    await page.mouse.move(box.x + 240, box.y + 220, { steps: 4 });
    await page.mouse.up();
    await addressSettled(page);
    // The result is announced a while after.
    await page.waitForFunction(() => document.getElementById('live')?.textContent);
  }],
];

// All of them at once: three seconds of waiting, not fifteen.
test('at rest nothing is drawn and nothing ticks', { timeout: 4 * PATIENCE_MS }, async (t) => {
  const pages = await Promise.all(STATES.map(async ([state, at, reach]) => {
    const opened = await lesson.open({ at, before: counting, viewport: SMALL });
    await reach(opened.page);
    await atRest(opened.page);
    return { state, ...opened };
  }));
  const flying = await lesson.open({ before: counting, viewport: SMALL });
  await flying.page.locator('#speed').selectOption('1');
  await flying.page.locator('#play').click();
  await flying.page.waitForFunction(() => globalThis.__lesson?.session.live().playing);

  const all = [...pages, { state: 'in flight', ...flying }];
  const before = await Promise.all(all.map(({ page }) => counts(page)));
  await new Promise((done) => { setTimeout(done, WINDOW_MS); });
  const after = await Promise.all(all.map(({ page }) => counts(page)));

  for (const [i, { state }] of all.entries()) {
    await t.test(state, () => {
      // The same counters do count, where something flies.
      if (state === 'in flight') {
        assert.ok(after[i].frames > before[i].frames + 5 && after[i].painted > before[i].painted + 5);
      } else {
        assert.deepEqual(after[i], before[i]);
        assert.ok(after[i].frames > 0 && after[i].loop > 0);
      }
    });
  }
  for (const { close } of all) await close();
});
