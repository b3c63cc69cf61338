// The page's tasks by the keys alone, from the top of the page to what is wanted, in windows
// wide and small. Every stop on the way is looked at (walk.mjs).
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { addressSettled, ask, lessons, live, report, text } from './lesson.mjs';
import { focusOn, walker } from './walk.mjs';

const lesson = await lessons({ gl: false });

/** @typedef {import('./lesson.mjs').Page} Page */

const PATIENCE = { patience_ms: 180000 };
/** 1280 by 1024 at 400 %. */
const ZOOMED = { width: 320, height: 256 };
const PHONE = { width: 390, height: 700 };
const TABLET = { width: 768, height: 1024 };

/** The polite region says it, while the focus stays. @param {Page} page @param {RegExp} words */
const says = (page, words) => page.waitForFunction(([pattern, flags]) =>
  new RegExp(pattern, flags).test(document.getElementById('live')?.textContent ?? ''), [words.source, words.flags])
  .catch(async () => assert.fail(`“${await text(page, '#live')}” is not ${words}`));

/** What Enter saves. @param {Page} page */
async function saved(page) {
  const [file] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  return { name: file.suggestedFilename(), words: await readFile(/** @type {string} */ (await file.path()), 'latin1') };
}

/** Printing is counted, not done. @param {Page} page */
const countPrints = (page) => page.addInitScript(() => {
  Object.assign(globalThis, { prints: 0 });
  globalThis.print = () => { /** @type {any} */ (globalThis).prints += 1; };
});
/** @param {Page} page */
const prints = (page) => page.evaluate(() => /** @type {any} */ (globalThis).prints);

lesson.test('a scene is set, read, flown and paused; its picture is saved, its link copied', { at: '?webgl=false', viewport: TABLET, ...PATIENCE, before: countPrints }, async (page) => {
  const { to, back, press, write, landsOn } = walker(page);
  await to('#play');
  await press('Space');
  await page.waitForFunction(() => globalThis.__lesson?.session.live().playing);
  await press('Space');
  await page.waitForFunction(() => !globalThis.__lesson?.session.live().playing);
  await landsOn('#play');
  const before = await live(page);
  await to('#scrub');
  await press('ArrowRight');
  await page.waitForFunction((was) => globalThis.__lesson?.session.live().t_s === was + 1, before.t_s);
  assert.match(await page.locator('#scrub').getAttribute('aria-valuetext') ?? '', /seconds? (before|after) the fix/);

  await to('#f-wind-from');
  await write('230');
  await to('#f-wind-kt');
  await write('30');
  await press('Tab');
  await addressSettled(page);
  assert.equal(await ask(page, 'link'), 'wind=230/30');
  await says(page, /You roll out/);
  assert.ok((await text(page, '#happens')).includes((await report(page)).headline));

  await to('#save-svg');
  const { name, words } = await saved(page);
  assert.equal(name, 'hold-238-left-wind-230-30.svg');
  assert.match(words, /<svg /);
  await says(page, /Saved as hold-238-left-wind-230-30\.svg/);
  await landsOn('#save-svg');
  await to('#print-handout');
  await press('Enter');
  assert.equal(await prints(page), 1);
  await back('#copy');
  await press('Enter');
  await says(page, /copied/i);
  await landsOn('#copy');
});

lesson.test('two steps of the lesson, each with a prediction, on a phone', { at: '?webgl=false', viewport: PHONE, reducedMotion: 'reduce', ...PATIENCE }, async (page) => {
  const { open, to, press, landsOn } = walker(page);
  await open('lesson');
  for (const step of [1, 2]) {
    await page.waitForFunction((n) => document.getElementById('lesson-count')?.textContent?.startsWith(`Step ${n} `), step);
    await page.locator('.lesson-commit').waitFor({ state: 'visible' });
    await to('#lesson-form input');
    await press(await page.evaluate(() => /** @type {HTMLInputElement} */ (document.activeElement).type === 'radio') ? 'Space' : '9');
    await to('.lesson-commit');
    await press('Enter');
    await page.locator('#lesson-said').waitFor();
    await landsOn('#lesson-said');
    await to('.lesson-onward a');
    await press('Enter');
  }
  await landsOn('#lesson-title');
});

lesson.test('practice: hint, answer, next; a sheet; a check begun and left, at 400 %', { at: '?webgl=false', viewport: ZOOMED, before: countPrints, ...PATIENCE }, async (page) => {
  const { open, to, back, press, write, landsOn } = walker(page);
  await open('practice');
  await page.locator('#practice-start').waitFor();
  await to('.practice-paper summary');
  await press('Enter');
  await to('#sheet-print');
  await press('Enter');
  await page.waitForFunction(() => /** @type {any} */ (globalThis).prints === 1);
  await back('#practice-go');
  await press('Enter');
  await landsOn('#practice-question');
  // Worked examples first, one a skill: they are read.
  for (let n = 0; n < 6 && !await page.locator('#practice-hint').count(); n += 1) {
    await to('#practice-next');
    await press('Enter');
    await landsOn('#practice-question');
  }
  await to('#practice-hint');
  await press('Enter');
  await page.locator('.practice-hint').first().waitFor();
  await landsOn('#practice-form input');
  await press('Space');
  if (await page.locator('#practice-answer').count()) await write('9');
  if (await page.locator('input[name=practice-side]').count()) {
    await to('input[name=practice-side]');
    await press('Space');
  }
  await to('.lesson-commit');
  await press('Enter');
  await landsOn('#practice-verdict');
  await says(page, /\S/);
  await to('#practice-next');
  await press('Enter');
  await landsOn('#practice-question');
  await to('#practice-stop');
  await press('Enter');
  await landsOn('#practice-title');
  await to('#practice-check');
  await press('Enter');
  await landsOn('#practice-question');
  assert.match(await text(page, '#practice-head'), /question 1 of 12/);
  await to('#practice-stop');
  await press('Enter');
  await landsOn('#practice-title');
});

lesson.test('a minute flown by hand, and its debrief', { at: '?webgl=false', viewport: PHONE, ...PATIENCE }, async (page) => {
  const { open, to, back, press, write, landsOn } = walker(page);
  await open('fly');
  await to('#fly-start');
  await press('Enter');
  await landsOn('#fly-cockpit');
  await to('#fly-bug-field');
  await write('100');
  await press('Enter');
  await to('#fly-clock');
  await press('Enter');
  await to('input[name=fly-speed]');
  await press('ArrowRight', 'ArrowRight', 'ArrowRight');
  await page.waitForFunction(() => (globalThis.__lesson?.session.live().t_s ?? -99) > 60);
  await back('#fly-pause');
  await press('Enter');
  await page.waitForFunction(() => !globalThis.__lesson?.session.live().playing);
  await to('#fly-end');
  await press('Enter');
  await landsOn('#fly-debrief');
  await to('#fly-again');
});

/** Modes come late, as over a slow line. @param {Page} page */
const lateModes = (page) => page.route('**/mode-*.js', async (route) => {
  await new Promise((done) => { setTimeout(done, 500); });
  await route.continue();
});

lesson.test('today’s card and its print; a package for a course, each coming late', { at: '?webgl=false', viewport: ZOOMED, before: async (page) => { await countPrints(page); await lateModes(page); }, ...PATIENCE }, async (page) => {
  const { open, to, back, press, write, landsOn } = walker(page);
  await open('card');
  await to('#f-wind-kt');
  await write('12');
  await to('#card-print');
  await press('Enter');
  assert.equal(await prints(page), 1);
  assert.match(await text(page, '#card-sheet'), /12 kt/);
  await open('teach', 'Shift+Tab');
  await to('#teach-mark');
  await write('0');
  await press('Enter');
  await landsOn('#teach-mark');
  await page.locator('#teach-problem').waitFor();
  await write('80');
  await to('#teach-make');
  assert.match((await saved(page)).name, /\.zip$/);
  await page.waitForFunction(() => document.getElementById('teach-said')?.textContent);
  await landsOn('#teach-make');
});

lesson.test('all winds: another wind, another rule, the map taken away, a cloud', { at: '?webgl=false#wind=310/22', viewport: TABLET, ...PATIENCE }, async (page) => {
  const { open, to, back, press, write, landsOn } = walker(page);
  await open('winds');
  await to('#winds-point');
  await press('ArrowUp', 'ArrowRight');
  await page.waitForFunction(() => globalThis.__lesson?.session.report().fields.wind !== '310/22');
  await back('#winds-plan');
  const share = await text(page, '#winds-share');
  await press('ArrowDown');
  await page.waitForFunction((before) => document.getElementById('winds-share')?.textContent !== before, share);
  await to('#mode-winds details summary');
  await press('Enter');
  await to('#winds-csv');
  assert.match((await saved(page)).name, /\.csv$/);
  await landsOn('#winds-csv');
  await to('#winds-cloud');
  await press('Space');
  await page.waitForFunction(() => document.querySelectorAll('#winds-cloud-shares li').length > 0);
  await to('#winds-clock');
  await write('minus one');
  await press('Tab');
  await page.waitForFunction(() => document.getElementById('winds-cloud-problem')?.textContent);
  await back('#winds-clock');
  await write('4');
  await press('Enter');
  await page.waitForFunction(() => !document.getElementById('winds-cloud-problem')?.textContent);
  await landsOn('#winds-clock');
});

lesson.test('a walk finds a focus that is not seen, is faint, or lies under something', { at: '?webgl=false' }, async (page) => {
  await page.locator('.skip').focus();
  await page.keyboard.press('Tab');
  assert.equal((await focusOn(page)).wrong, '');
  /** @param {string} css */
  const spoilt = async (css) => {
    await page.evaluate((text) => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(text);
      document.adoptedStyleSheets = [sheet];
    }, css);
    return (await focusOn(page)).wrong;
  };
  assert.equal(await spoilt(':focus-visible { outline: none !important }'), 'has a ring of 0.0:1');
  assert.match(await spoilt(':focus-visible { outline-color: #e8e6e0 !important }'), /^has a ring of 1\.\d:1$/);
  assert.equal(await spoilt('.foot { position: fixed; inset: 0; z-index: 9; background: #fff }'), 'lies under something');
  assert.equal(await spoilt('body { translate: 0 -900px }'), 'is not in the window');
});
