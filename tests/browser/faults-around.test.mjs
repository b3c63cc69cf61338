// What stands around the page and fails: a course that answers late, answers nonsense, or whose window
// goes; a host page that floods the lesson with messages, malformed ones, and from wrong origins; a
// new version that comes and takes the page over while a check runs elsewhere is in install.test.mjs.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { give, STUB } from './course-page.mjs';
import { drawnIn, heardOf, hears, twoSites } from './frames.mjs';
import { works } from './faults.mjs';
import { PATIENCE_MS, isReady, lessons, text } from './lesson.mjs';

const lesson = await lessons({ gl: false });
const sites = await twoSites();

/** @typedef {import('./lesson.mjs').Page} Page */

const CHECK = '?webgl=false&lms=1&mode=practice&check=1&set=mixed';

/** A course's API that does as it likes, before the page. @param {Page} page @param {string} api */
const course = (page, api) => page.addInitScript(`globalThis.calls = 0; globalThis.API = new Proxy({}, { get: (_, name) => (...args) => { calls += 1; return (${api})(name, ...args); }, has: () => true });`);

/** What a course may answer. @type {Record<string, string>} */
const ANSWERS = {
  nothing: '() => undefined',
  objects: '() => ({ toString() { throw new Error("no text"); } })',
  'a page': '() => "<!doctype html><script>globalThis.hit=1</script>"',
  'a promise': 'async () => "true"',
  'what is not an error': '() => { throw null; }',
};

for (const [what, api] of Object.entries(ANSWERS)) {
  lesson.test(`a course that answers ${what}: the check goes on, and nothing is said to be recorded that is not`,
    { at: CHECK, ready: 'core', before: (page) => course(page, api) }, async (page) => {
      await page.locator('#practice-check').click();
      await give(page, 'any');
      assert.match(await text(page, '#course-said'), /did not accept|Connected/);
      assert.equal(await page.evaluate(() => 'hit' in globalThis), false);
      assert.ok(await page.evaluate(() => /** @type {any} */ (globalThis).calls) > 0, 'it was asked');
      await page.locator('#practice-next').click();
      await give(page, 'any');
    });
}

lesson.test('a course that takes a while over every call: what is answered arrives in order', {
  at: CHECK, ready: 'core', before: (page) => page.addInitScript(`(() => { ${readFileSync(STUB, 'utf8').replace('export function', 'function')}
globalThis.stub = strictCourse();
globalThis.API = new Proxy(stub.api, { get: (api, name) => (...args) => { const until = performance.now() + 60; while (performance.now() < until); return api[name](...args); } }); })();`),
}, async (page) => {
  await page.locator('#practice-check').click();
  for (let n = 0; n < 3; n += 1) {
    if (n) await page.locator('#practice-next').click();
    await give(page, 'any');
  }
  assert.match(await text(page, '#course-said'), /Connected to your course/);
  const kept = await page.evaluate(() => /** @type {any} */ (globalThis).stub.kept());
  assert.deepEqual([0, 1, 2, 3].map((n) => Boolean(kept[`cmi.interactions.${n}.id`])), [true, true, true, false]);
});

test('a course’s window that is closed while the check runs: the check goes on, and that nothing arrives is said', { timeout: 3 * PATIENCE_MS }, async () => {
  const context = await lesson.browser.newContext({ viewport: { width: 1280, height: 860 }, serviceWorkers: 'block' });
  try {
    const outer = await context.newPage();
    await outer.route('**/course.html', (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Course</title>' }));
    await outer.goto(`${lesson.url}course.html`);
    await outer.evaluate(`(() => { ${readFileSync(STUB, 'utf8').replace('export function', 'function')}
globalThis.stub = strictCourse(); globalThis.API = stub.api; })()`);
    const [page] = await Promise.all([outer.waitForEvent('popup'), outer.evaluate((at) => { open(at); }, lesson.url + CHECK)]);
    /** @type {string[]} */
    const errors = [];
    page.on('pageerror', (error) => errors.push(String(error)));
    await isReady(page, 'core');
    assert.match(await text(page, '#course-said'), /Connected to your course/);
    await page.locator('#practice-check').click();
    await give(page, 'any');
    await outer.close();
    await page.locator('#practice-next').click();
    await give(page, 'any');
    assert.doesNotMatch(await text(page, '#course-said'), /Connected/, 'it is not said to be connected');
    await page.locator('#practice-next').click();
    await give(page, 'any');
    await page.locator('#to-explore').click();
    await works(page, 31);
    assert.deepEqual(errors, []);
  } finally {
    await context.close();
  }
});

test('a host that floods the page with thousands of messages, malformed and from strangers: it stays usable, and shows the last scene',
  { timeout: 3 * PATIENCE_MS }, async () => {
    const { page, frame, complaints, close } = await sites.openHost(sites.page(`?webgl=false&host=${sites.host}`));
    await hears(page, 'ready');
    await page.evaluate(() => {
      const iframe = /** @type {HTMLIFrameElement} */ (document.querySelector('iframe'));
      const about = { lesson: 'holding-entry', v: 1 };
      // A window of another origin that has the lesson's window, too.
      const stranger = document.createElement('iframe');
      stranger.title = 'Stranger';
      stranger.setAttribute('sandbox', 'allow-scripts');
      stranger.srcdoc = `<script>for (let n = 0; n < 2000; n += 1) parent.frames[0].postMessage({ lesson: 'holding-entry', v: 1, kind: 'scene', link: 'wind=1/1' }, '*');<\/script>`;
      document.body.append(stranger);
      const round = { ...about, kind: 'scene' };
      Object.assign(round, { round });
      const odd = [null, undefined, 0, '', 'text', [], [about], { lesson: about }, { ...about, kind: {} }, { ...about, kind: '__proto__' }, { ...about, kind: 'scene' },
        { ...about, kind: 'scene', link: 'x'.repeat(100000) }, { ...about, kind: 'scene', link: ['wind=1/1'] }, { ...about, v: 'x', kind: 'hello' }, round,
        { ...about, kind: 'mode', mode: 'constructor' }, { ...about, kind: 'hello', id: { deep: [round] } }, new Map([['lesson', 'holding-entry']]), new Uint8Array(1000), new Date()];
      for (let n = 0; n < 4000; n += 1) iframe.contentWindow?.postMessage(odd[n % odd.length], '*');
      for (let knots = 1; knots <= 1000; knots += 1) {
        iframe.contentWindow?.postMessage({ ...about, kind: 'scene', link: `wind=90/${1 + (knots % 100)}&laps=${knots % 4}`, id: knots }, '*');
      }
      iframe.contentWindow?.postMessage({ ...about, kind: 'scene', link: 'wind=123/45', id: 'last' }, '*');
    });
    await frame.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=123/45');
    await drawnIn(frame);
    const told = await page.evaluate(() => /** @type {any} */ (globalThis).heard.length);
    assert.ok(told < 300, `${told} answers to 7000 messages`);
    assert.ok((await heardOf(page, 'problem')).some(({ problem }) => problem === 'too-many'));
    // A person in the frame is not held up.
    await frame.locator('#f-wind-kt').fill('31');
    await frame.locator('#f-wind-kt').press('Tab');
    await frame.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=123/31');
    assert.deepEqual(complaints, []);
    await close();
  });
