// What the browser keeps for the page may be full, denied, spoilt, or written by another window: the
// page works all the same, and says whether progress is kept.
import assert from 'node:assert/strict';
import { give } from './course-page.mjs';
import { works } from './faults.mjs';
import { drawn, isReady, lessons, text } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

const AT = '?webgl=false#mode=practice';
const KEPT = 'holding-practice';
const KEYS = [KEPT, `${KEPT}-try`, 'lesson.theme'];

/** @param {Page} page */
const stored = (page) => page.evaluate((key) => localStorage.getItem(key), KEPT);
/** @param {Page} page @param {RegExp} words */
const keptSays = (page, words) => page.waitForFunction((source) => new RegExp(source).test(document.getElementById('practice-kept')?.textContent ?? ''), words.source);
/** How many answers of the check have counted here. @param {Page} page */
const answers = (page) => page.evaluate(() => JSON.parse(globalThis.__lesson?.core.tutor().progress() ?? '{}'));

/** @param {Page} page */
async function answerOne(page) {
  await page.locator('#practice-check').click();
  await give(page, 'any');
}

/** A theme is chosen and shown, kept or not. @param {Page} page */
async function themeWorks(page) {
  await page.locator('input[name="theme"][value="dark"]').evaluate((radio) => /** @type {HTMLInputElement} */ (radio).click());
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), 'dark');
}

lesson.test('storage that is full from the start keeps nothing, and that is said', { at: '?webgl=false' }, async (page) => {
  await page.evaluate(() => {
    let size = 1 << 20;
    for (let n = 0; size > 0; n += 1) {
      try {
        localStorage.setItem(`another${n}`, 'x'.repeat(size));
      } catch {
        size >>= 1;
      }
    }
  });
  await page.reload();
  await isReady(page, 'core');
  assert.equal(await page.evaluate(() => {
    try {
      localStorage.setItem('more', 'x'.repeat(9));
      return 'kept';
    } catch (error) {
      return /** @type {DOMException} */ (error).name;
    }
  }), 'QuotaExceededError', 'it is full');
  await themeWorks(page);
  await page.locator('#to-practice').click();
  await keptSays(page, /keeps nothing/);
  await answerOne(page);
  await page.locator('#to-explore').click();
  await works(page, 31);
});

lesson.test('storage that becomes full while practising says so after the answer that it did not take', { at: AT }, async (page) => {
  await keptSays(page, /kept on this device/);
  await page.evaluate(() => {
    const { setItem } = Storage.prototype;
    Storage.prototype.setItem = function set(/** @type {string} */ key, /** @type {string} */ value) {
      if (value.length > 50) throw new DOMException('full', 'QuotaExceededError');
      setItem.call(this, key, value);
    };
  });
  await answerOne(page);
  await keptSays(page, /keeps nothing/);
  assert.equal(await stored(page), null);
});

for (const what of ['getItem', 'setItem', 'removeItem']) {
  lesson.test(`storage whose ${what} throws, theme and practice go on`, {
    at: AT, before: (page) => page.addInitScript((name) => {
      /** @type {any} */ (Storage.prototype)[name] = () => { throw new DOMException('denied', 'SecurityError'); };
    }, what),
  }, async (page) => {
    await themeWorks(page);
    await answerOne(page);
    if (what !== 'getItem') assert.match(await text(page, '#practice-kept'), /keeps nothing/);
    await page.locator('#practice-clear').evaluate((button) => /** @type {HTMLElement} */ (button).click());
    await page.locator('#practice-clear-yes').click();
    await answerOne(page);
  });
}

/** What another program, another version or a fault of the disk may leave. */
const GARBAGE = ['', 'null', '{}', '\u0000\uffff\ud800', '['.repeat(100000), 'x'.repeat(1 << 20),
  '{"__proto__":{"x":1},"skills":{"entry":[[],{}]}}', '<img src=x onerror=hit=1>'];

lesson.test('garbage in each key: nothing breaks, what cannot be read is said and left alone', { at: '?webgl=false', patience_ms: 120000 }, async (page) => {
  for (const garbage of GARBAGE) {
    await page.evaluate(([keys, value]) => { for (const key of keys) localStorage.setItem(key, value); }, /** @type {const} */ ([KEYS, garbage]));
    await page.goto('about:blank');
    await page.goto(lesson.url + AT);
    await isReady(page, 'core');
    const name = JSON.stringify(garbage.slice(0, 40));
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), undefined, name);
    await page.locator('#practice-check').waitFor();
    await keptSays(page, /could not be read/);
    assert.ok(await page.locator('#practice-import-problems li').count(), name);
    await answerOne(page);
    assert.equal(await stored(page), garbage, `${name} is left as it was`);
    assert.equal(await page.evaluate(() => 'hit' in globalThis), false, name);
  }
});

lesson.test('two windows share what is kept: one at rest takes up what the other saved, one that runs does not write over it', { at: AT }, async (page) => {
  const other = await page.context().newPage();
  await other.goto(lesson.url + AT);
  await isReady(other, 'core');
  await page.bringToFront();
  await answerOne(page);
  await other.bringToFront();
  // The one at rest follows.
  await other.waitForFunction((want) => globalThis.__lesson?.core.tutor().progress() === want, await stored(page));
  await answerOne(other);
  await page.bringToFront();
  // The one that runs says so, and keeps what the other has.
  await keptSays(page, /Another window/);
  const kept = await stored(other);
  await page.locator('#practice-next').click();
  await give(page, 'any');
  await drawn(page);
  assert.equal(await stored(page), kept, 'not written over');
  await page.locator('#practice-stop').click();
  await keptSays(page, /kept on this device/);
  assert.deepEqual(await answers(page), JSON.parse(kept ?? ''), 'and now it has what the other kept');
  // Out of view nothing is shown of it until practice is opened again.
  await page.locator('#to-lesson').click();
  await page.locator('#lesson-show').waitFor();
  await other.bringToFront();
  await other.locator('#practice-next').click();
  await give(other, 'any');
  await page.bringToFront();
  await page.locator('#to-practice').click();
  await page.waitForFunction((want) => globalThis.__lesson?.core.tutor().progress() === want, await stored(other));
  // Cleared in one, it is cleared in the other.
  await other.bringToFront();
  await other.locator('#practice-stop').click();
  await other.locator('#practice-clear').click();
  await other.locator('#practice-clear-yes').click();
  await page.bringToFront();
  await page.waitForFunction(() => JSON.parse(globalThis.__lesson?.core.tutor().progress() ?? '{}').open_check === undefined);
  assert.equal(await stored(page), null);
});

lesson.test('a theme chosen in one window stays that of this window, and the next page has it', { at: '?webgl=false' }, async (page) => {
  const other = await page.context().newPage();
  await other.goto(`${lesson.url}?webgl=false`);
  await isReady(other, 'core');
  await themeWorks(page);
  assert.equal(await other.evaluate(() => document.documentElement.dataset.theme), undefined);
  await other.reload();
  assert.equal(await other.evaluate(() => document.documentElement.dataset.theme), 'dark');
});
