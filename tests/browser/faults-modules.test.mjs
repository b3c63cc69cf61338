// A module that does not come, comes broken, late, or under another type: the picture and the words
// stay, what is missing is said, the rest works, and with the module there it goes on.
import assert from 'node:assert/strict';
import { BROKEN, ODD, isSaid, standsAsItCame, works } from './faults.mjs';
import { lessons, openView, isReady } from './lesson.mjs';

const lesson = await lessons();

const all = { ...BROKEN, ...ODD };

for (const [how, answer] of Object.entries(BROKEN)) {
  lesson.test(`core.wasm ${how}: the opening scene stays, and why nothing can be changed is said`,
    { ready: 'failed', mayComplain: true, before: (page) => page.route('**/core.wasm', answer) }, async (page) => {
      await isSaid(page, /could not be loaded/);
      await standsAsItCame(page);
    });
}

for (const [how, answer] of Object.entries(ODD)) {
  lesson.test(`core.wasm ${how}: the page works`,
    { at: '?webgl=false', before: (page) => page.route('**/core.wasm', answer) }, async (page) => works(page, 31));
}

lesson.test('a core that does not come for long is said to be on its way, until it is there', {
  at: '?webgl=false', ready: null,
  before: async (page) => {
    await page.clock.install({ time: 0 });
    await page.route('**/core.wasm', async (route) => {
      await page.waitForFunction(() => document.documentElement.hasAttribute('data-let-it-come'), undefined, { polling: 50 });
      await route.continue();
    });
  },
}, async (page) => {
  assert.equal(await page.locator('#notice').isVisible(), false);
  await page.clock.runFor(20000);
  await isSaid(page, /still on its way/);
  await standsAsItCame(page);
  await page.evaluate(() => { document.documentElement.toggleAttribute('data-let-it-come', true); });
  await page.clock.resume();
  await isReady(page, 'core');
  assert.equal(await page.locator('#notice').isVisible(), false);
  await works(page, 31);
});

for (const [how, answer] of Object.entries(all)) {
  lesson.test(`view.wasm ${how}: the SVG is there and works`,
    { ready: null, mayComplain: true, before: (page) => page.route('**/view.wasm', answer) }, async (page) => {
      await page.waitForFunction(() => /core|view/.test(document.documentElement.dataset.ready ?? ''));
      await works(page, 31);
      assert.equal(await page.locator('#notice').isVisible(), false, 'nothing is wrong for the student');
      if (how in ODD) await isReady(page, 'view');
      else await page.waitForFunction(() => !document.querySelector('#picture canvas'));
      await works(page, 32);
    });
}

lesson.test('core-more.wasm in each of these ways: what wants it says so, all else works, and it is tried again',
  { at: '?webgl=false', mayComplain: true }, async (page) => {
    for (const [n, [how, answer]] of Object.entries(BROKEN).entries()) {
      await page.route('**/core-more.wasm', answer);
      await page.locator('#tab-laps').click();
      await isSaid(page, /^“Laps”/);
      assert.equal(await page.locator('#view-plan').isVisible(), true, how);
      await page.locator('#to-practice').click();
      await isSaid(page, /^“Practice”/);
      await page.waitForFunction(() => !location.hash.includes('mode='));
      await works(page, 30 + n);
      await page.unroute('**/core-more.wasm');
    }
    for (const answer of Object.values(ODD)) {
      await page.reload();
      await isReady(page, 'core');
      await page.route('**/core-more.wasm', answer);
      await openView(page, 'laps');
      assert.equal(await page.locator('#notice').isVisible(), false);
      assert.ok(await page.locator('#view-laps td').count());
      await page.unroute('**/core-more.wasm');
    }
  });

lesson.test('study.wasm in each of these ways: the mode says so, all else works, and it is tried again',
  { at: '?webgl=false', mayComplain: true, patience_ms: 120000 }, async (page) => {
    for (const [n, [how, answer]] of Object.entries(all).entries()) {
      await page.route(/study.*\.wasm$/, answer);
      await page.locator('#to-winds').click();
      if (how in BROKEN) {
        await page.locator('#winds-failed').waitFor({ state: 'visible' });
        assert.equal(await page.locator('#winds-body').isVisible(), false, how);
      } else {
        await page.waitForFunction(() => document.getElementById('winds-map')?.dataset.whole === 'true');
        assert.equal(await page.locator('#winds-failed').isVisible(), false, how);
      }
      await page.locator('#to-explore').click();
      await page.locator('#mode-winds').waitFor({ state: 'hidden' });
      await works(page, 30 + n);
      await page.unroute(/study.*\.wasm$/);
      if (how in ODD) {
        await page.reload();
        await isReady(page, 'core');
      }
    }
  });
