// What stands in the page before, and without, the scripts and the modules.
import assert from 'node:assert/strict';
import { mouse } from './hands.mjs';
import { WIND, ask, atRest, coreInNode, handlePlace, isReady, lessons, svgSays, text } from './lesson.mjs';

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

/** Holds back files that the page asks for. @param {string} files */
function gate(files) {
  /** @type {() => void} */
  let open = () => {};
  const opened = new Promise((done) => { open = () => done(null); });
  return { open: () => open(), before: (/** @type {Page} */ page) => page.route(files, (route) => opened.then(() => route.continue())) };
}

const modules = gate('**/*.wasm');
lesson.test('the first paint waits for no module', { ready: null, before: modules.before }, async (page) => {
  await showsTheOpeningScene(page);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.ready), undefined);
  modules.open();
  await isReady(page, 'view');
  assert.equal(await page.locator('#play').isDisabled(), false);
});

for (const [width, height] of [[1280, 860], [390, 844]]) {
  lesson.test(`the picture waits for no style of what is beside it, and stays where it is, ${width} px wide`, { viewport: { width, height } }, async (page) => {
    const rest = gate('**/rest.css');
    await rest.before(page);
    await page.reload({ waitUntil: 'commit' });
    const picture = page.locator('#picture svg:visible');
    await picture.waitFor();
    const places = () => page.evaluate(() => ['.top', '.caution', '.modes', '#picture', '.transport', '#play', '.strip']
      .map((css) => document.querySelector(css)?.getBoundingClientRect()).map((box) => box && [box.x, box.y, box.width, box.height].map(Math.round)));
    await page.evaluate(() => document.fonts.ready);
    const early = await places();
    assert.ok(early.every((box) => box && box[2] > 0 && box[3] > 0), JSON.stringify(early));
    rest.open();
    await isReady(page, 'view');
    await atRest(page);
    assert.deepEqual(await places(), early);
  });
}

const painter = gate('**/view.wasm');
lesson.test('a hand drags the wind before the canvas is there', { ready: 'core', before: painter.before }, async (page) => {
  assert.equal(await page.locator('#picture canvas').count(), 0);
  const from = await handlePlace(page, WIND);
  const held = await mouse(page);
  await held.down(from);
  await held.move(from, { x: from.x + 30, y: from.y + 30 });
  await held.up();
  const { wind } = (await ask(page, 'report')).fields;
  assert.notEqual(wind, opening.fields.wind);
  const [course, kt] = wind.split('/');
  await svgSays(page, `wind ${course.padStart(3, '0')}° / ${kt} kt`);
  painter.open();
  await isReady(page, 'view');
  assert.equal((await ask(page, 'report')).fields.wind, wind);
});
