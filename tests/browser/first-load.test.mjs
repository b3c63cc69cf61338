// What the page fetches by itself, and what it leaves until it is asked for: the first load is
// light, each part comes once, and one that does not come is said and spoils nothing else.
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';
import { SITE, SMALL, VIEWS, ask, atRest, drawn, lessons, openView, text, viewIsOpen } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

/** What the first view runs, chunks of the build by the beginning of their names. */
const FIRST = ['chunk', 'core.mjs', 'core.wasm', 'early.js', 'main.js', 'view.mjs', 'view.wasm'];
/** Of the bare page's bytes, of which tests/bench has the page. */
const BUDGET = 1.3;
/** As docs/performance.md had it when the budget was set, for a build without the bare page. */
const BARE_BYTES = 190400;

/** @param {string} file */
const packed = (file) => brotliCompressSync(readFileSync(file), { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }).length;

/** Names of the files that the page asks for. @param {Page} page @returns {string[]} that grows */
function asked(page) {
  /** @type {string[]} */
  const names = [];
  page.on('request', (request) => names.push(new URL(request.url()).pathname.slice(1)));
  return names;
}

/** Scripts and modules, the hash left out of a chunk's name. @param {string[]} names */
const programs = (names) => names.filter((name) => /\.(m?js|wasm)$/.test(name)).map((name) => name.replace(/^(chunk)-\w+\.js$/, '$1')).sort();

/** @type {string[]} */
let first = [];
lesson.test('the first load fetches what the first view runs, and no more of it when it rests', { viewport: SMALL, before: async (page) => { first = asked(page); } }, async (page) => {
  await atRest(page);
  assert.deepEqual(programs(first), FIRST);
  assert.equal(new Set(first).size, first.length, 'each file once');
  const bare = ['bare.mjs', 'bare.wasm'].map((name) => join(SITE, '../wasm', name));
  const limit = BUDGET * (bare.every((file) => existsSync(file)) ? bare.reduce((sum, file) => sum + packed(file), 0) : BARE_BYTES);
  const weight = first.filter((name) => /\.(m?js|wasm)$/.test(name)).reduce((sum, name) => sum + packed(join(SITE, name)), 0);
  assert.ok(weight > 100000 && weight <= limit, `${weight} bytes of ${Math.round(limit)}`);
});

/** @type {string[]} */
let later = [];
lesson.test('a view and a mode bring their own parts, and the second half of the core, once', { at: '?webgl=false', before: async (page) => { later = asked(page); } }, async (page) => {
  await atRest(page);
  later.length = 0;
  const own = () => later.map((name) => name.replace(/-\w{8}\.js$/, '.js')).filter((name) => /^(panel|mode)-|wasm$/.test(name)).sort();
  await openView(page, 'wind');
  assert.deepEqual(own(), ['core-more.wasm', 'panel-wind.js']);
  await openView(page, 'plan');
  await openView(page, 'wind');
  await page.locator('#to-card').click();
  await page.locator('#mode-card').waitFor();
  await page.locator('#to-explore').click();
  await page.locator('#mode-card').waitFor({ state: 'hidden' });
  await page.locator('#to-card').click();
  await page.locator('#mode-card').waitFor();
  assert.deepEqual(own(), ['core-more.wasm', 'mode-card.js', 'panel-wind.js']);
});

lesson.test('a part that does not come is said, and what is open goes on', { at: '?webgl=false', mayComplain: true, before: (page) =>
  page.route(/\/(panel-wind|mode-fly)-\w+\.js$/, (route) => route.abort()) }, async (page) => {
  await page.locator('#tab-wind').click();
  await page.locator('#notice', { hasText: 'could not be loaded' }).waitFor();
  assert.match(await text(page, '#notice'), /^“Wind” could not be loaded/);
  assert.ok(await page.locator('#view-plan').isVisible());
  await openView(page, 'laps');
  assert.ok(await page.locator('#notice').isHidden(), 'nothing is missing any more');
  await page.locator('#to-fly').click();
  await page.locator('#notice', { hasText: 'could not be loaded' }).waitFor();
  await page.waitForFunction(() => !/mode=/.test(location.hash));
  assert.equal(await page.locator('#to-explore').getAttribute('aria-current'), 'page');
  assert.ok(await page.locator('#view-laps').isVisible());
  await page.locator('#to-card').click();
  await page.locator('#mode-card').waitFor();
});

lesson.test('where the second half of the core fails once, the next try has it', { at: '?webgl=false', mayComplain: true, before: (page) =>
  page.route('**/core-more.wasm', (route) => route.abort(), { times: 1 }) }, async (page) => {
  await page.locator('#tab-displays').click();
  await page.locator('#notice', { hasText: 'could not be loaded' }).waitFor();
  await openView(page, 'displays');
  assert.ok(await page.locator('#notice').isHidden());
  assert.equal(await page.evaluate(() => (globalThis.__lesson?.core.tutor().sets().length ?? 0) > 3), true);
});

/** Before the page: listeners that an element has twice, as it has where a part is mounted twice. @param {Page} page */
const listenTwice = (page) => page.addInitScript(() => {
  /** @type {WeakMap<object, Set<string>>} */
  const known = new WeakMap();
  /** @type {string[]} */
  const twice = [];
  Object.defineProperty(globalThis, 'listenedTwice', { value: twice });
  const add = EventTarget.prototype.addEventListener;
  EventTarget.prototype.addEventListener = function listen(/** @type {Parameters<typeof add>} */ ...[type, listener, options]) {
    const its = known.get(this) ?? new Set();
    known.set(this, its);
    const name = `${type}: ${listener}`;
    if (its.has(name) && this instanceof Element) twice.push(`${this.id || this.className} ${name}`);
    its.add(name);
    add.call(this, type, listener, options);
  };
});
/** After listenTwice(). @param {Page} page @returns {Promise<string[]>} */
const listenedTwice = (page) => page.evaluate(() => /** @type {any} */ (globalThis).listenedTwice);

/** So late that it can be asked for again on its way. @param {Page} page @param {string} parts */
const late = (page, parts) => page.route(new RegExp(`/(${parts})-[\\w-]+\\.js$`), async (route) => {
  await new Promise((done) => { setTimeout(done, 400); });
  await route.continue();
});

lesson.test('a view that is asked for twice on its way is mounted once', { at: '?webgl=false', before: (page) => Promise.all([listenTwice(page), late(page, 'panel')]) }, async (page) => {
  for (const name of VIEWS) {
    await page.locator(`#tab-${name}`).dblclick();
    await viewIsOpen(page, name);
  }
  assert.equal(await page.locator('#dials figure').count(), 2);
  assert.deepEqual(await listenedTwice(page), []);
});

lesson.test('a mode that is asked for twice on its way is mounted and opened once', { at: '?webgl=false', before: (page) => Promise.all([listenTwice(page), late(page, 'mode')]) }, async (page) => {
  for (const name of ['lesson', 'practice', 'fly', 'winds', 'card']) {
    for (const to of [name, 'explore', name]) await page.locator(`#to-${to}`).click();
    await page.locator(`#mode-${name}`).waitFor();
    await drawn(page);
  }
  assert.deepEqual(await listenedTwice(page), []);
  await page.locator('#to-fly').click();
  await page.locator('#fly-start').click();
  const before = await ask(page, 'flyState');
  await page.locator('#fly-bug [data-by="10"]').click();
  assert.equal((await ask(page, 'flyState')).bug_deg, (before.bug_deg + 10) % 360);
});
