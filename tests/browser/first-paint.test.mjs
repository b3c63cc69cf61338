// What stands in the page before, and without, the scripts and the modules.
import assert from 'node:assert/strict';
import { coreInNode, isReady, lessons, svgSays, text } from './lesson.mjs';

const lesson = await lessons();
const opening = (await coreInNode()).evaluate('');

/** @typedef {import('./lesson.mjs').Page} Page */

/** The default scene, whole, as the core in Node computes it. @param {Page} page */
async function showsTheOpeningScene(page) {
  const picture = page.locator('#picture svg:visible');
  assert.equal(await picture.count(), 1, 'one picture');
  const box = await picture.boundingBox();
  assert.ok(box && box.width > 250 && box.height > 250);
  const labels = await picture.evaluate((svg) => (svg.textContent ?? '').replace(/\s+/g, ' '));
  assert.match(labels, /\bTARNE\b/);
  assert.match(labels, /160° \/ 24 kt/);
  const track = picture.locator('.r-flown').first();
  assert.equal(await track.evaluate((line) => getComputedStyle(line).stroke), 'rgb(0, 114, 178)');
  assert.ok((await text(page, '#happens')).includes(opening.headline));
  assert.equal(await text(page, '#summary'), opening.summary);
  assert.equal(await page.locator('#sum li').count(), opening.sum.length);
  assert.equal(await text(page, '#sum li:last-child'), opening.sum.at(-1));
  assert.equal(await page.locator('.plans tbody tr').count(), opening.plans.length);
  assert.match(await text(page, '.caution'), /not for navigation/i);
  assert.equal(await page.locator('.caution').isVisible(), true);
  assert.equal(await page.locator('#f-wind-from').inputValue(), '160');
  assert.equal(await page.locator('#f-wind-from').isDisabled(), true, 'nothing that would not work');
  assert.equal(await page.locator('#play').isDisabled(), true);
}

for (const [width, height] of [[1280, 860], [390, 844]]) {
  lesson.test(`without JavaScript the opening scene stands, ${width} px wide`,
    { javaScriptEnabled: false, ready: null, viewport: { width, height } }, async (page) => {
      await showsTheOpeningScene(page);
      assert.match(await text(page, 'noscript .notice, .notice:visible'), /JavaScript/);
    });
}

lesson.test('a page whose core does not come says so and keeps the opening scene',
  { ready: 'failed', mayComplain: true, before: (page) => page.route('**/core.wasm', (route) => route.abort()) },
  async (page) => {
    await showsTheOpeningScene(page);
    const notice = page.locator('#notice');
    assert.equal(await notice.isVisible(), true);
    assert.equal(await notice.getAttribute('role'), 'alert');
    assert.match(await notice.innerText(), /could not be loaded/);
  });

lesson.test('a page whose painter does not come works on its SVG',
  { ready: 'core', mayComplain: true, before: (page) => page.route('**/view.wasm', (route) => route.abort()) },
  async (page) => {
    await page.locator('#f-wind-kt').fill('31');
    await svgSays(page, 'wind 160° / 31 kt');
    assert.equal(await page.locator('#notice').isVisible(), false, 'nothing is wrong for the student');
    await page.waitForFunction(() => !document.querySelector('#picture canvas'));
  });

/** Opened once the first paint has been looked at. @type {() => void} */
let open = () => {};
const gate = new Promise((done) => { open = () => done(null); });

lesson.test('the first paint waits for no module', { ready: null, before: (page) =>
  page.route('**/*.wasm', (route) => gate.then(() => route.continue())) }, async (page) => {
  await showsTheOpeningScene(page);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.ready), undefined);
  open();
  await isReady(page, 'view');
  assert.equal(await page.locator('#play').isDisabled(), false);
});
