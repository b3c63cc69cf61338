// The lesson to read: all of it without JavaScript, with a picture before and after each flight;
// on paper with its answers open.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { axeFindsNothing, fitsAt, tooSmall } from './access.mjs';
import { drawn, lessons, text } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../shell/lesson-steps.js').Lesson} Lesson */

const browser = await lessons();
/** @type {Lesson} */
const lesson = JSON.parse(await readFile(new URL('../../assets/lesson/entry.en.json', import.meta.url), 'utf8'));
const words = JSON.parse(await readFile(new URL('../../assets/words/en.json', import.meta.url), 'utf8'));
const PAGE = { at: 'lesson.html', ready: null };

for (const width of [1280, 390]) {
  browser.test(`every step, without JavaScript, ${width} px wide`, { ...PAGE, javaScriptEnabled: false, viewport: { width, height: 800 } }, async (page) => {
    assert.match(await text(page, '.caution'), /not for navigation/i);
    assert.equal(await page.locator('article').count(), lesson.steps.length);
    assert.equal(await page.locator('#theme').isVisible(), false, 'no choice that would not work');
    for (const step of lesson.steps) {
      const article = page.locator(`#step-${step.id}`);
      assert.ok((await article.getByRole('heading', { level: 2 }).innerText()).endsWith(step.title));
      assert.equal(await article.locator('details[open]').count(), 0);
      assert.equal(await article.getByRole('img').count(), 1, 'the picture before the flight');
      assert.doesNotMatch(await article.locator('.lesson-picture').first().evaluate((el) => el.textContent ?? ''), /NM (past|short)/);
      await article.locator('summary').click();
      assert.equal(await article.getByRole('img').count(), 2);
      assert.match(await article.getByRole('img').nth(1).getAttribute('aria-label') ?? '', /roll out|rolls out/);
      assert.ok((await article.locator('details .lesson-words').innerText()).length > 120);
    }
    assert.doesNotMatch(await page.locator('main').innerText(), /[{}|*]|undefined|NaN/);
  });
}

browser.test('its numbers are the core’s', PAGE, async (page) => {
  const answer = async (/** @type {string} */ id) => (await page.locator(`#step-${id} details .outcome`).evaluate((el) => el.textContent ?? '')).replace(/\u00a0/g, ' ');
  const core = await (await import('./lesson.mjs')).coreInNode();
  const heading = (/** @type {number | null | undefined} */ deg) => `The answer: ${String(Math.round(deg ?? NaN)).padStart(3, '0')}°.`;
  for (const [id, link] of [['side', 'wind=0/0&rule=still-air'], ['first-leg', 'wind=330/24']]) {
    assert.equal(await answer(id), heading(core.evaluate(link).entry?.heading_deg), id);
  }
  assert.equal(await answer('laps'), heading(core.evaluate('laps=2').laps?.[0].outbound_heading_deg));
  assert.match(await answer('turn'), /^The answer: “Past /);
});

browser.test('it keeps a strict policy', PAGE, async (page) => {
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  assert.match(policy ?? '', /default-src 'none'; script-src 'self'; style-src 'self';/);
  assert.equal(await page.locator('script:not([src]), style, [style]').count(), 0);
});

/** @param {Page} page */
const unfolded = (page) => page.evaluate(() => { for (const d of document.querySelectorAll('details')) d.open = true; });

for (const width of [1280, 390]) {
  browser.test(`axe finds nothing, ${width} px wide`, { ...PAGE, viewport: { width, height: 800 } }, async (page) => {
    await axeFindsNothing(page, 'folded');
    await unfolded(page);
    await axeFindsNothing(page, 'open');
  });
}

browser.test('nothing sticks out at any width, and targets are large enough', PAGE, async (page) => {
  await unfolded(page);
  await fitsAt(page, [320, 390, 719, 899, 900, 1440]);
  assert.deepEqual(await tooSmall(page, 'a[href], button, input, summary', 24), []);
});

browser.test('on paper every answer stands open, in ink on white', { ...PAGE, colorScheme: 'dark' }, async (page) => {
  await page.emulateMedia({ media: 'print' });
  await drawn(page);
  for (const step of lesson.steps) {
    const box = await page.locator(`#step-${step.id} details .lesson-observe`).boundingBox();
    assert.ok(box && box.height > 10, step.id);
  }
  assert.equal(await page.locator('.lesson-fly').first().isVisible(), false);
  const pdf = await page.pdf({ format: 'A4' });
  assert.ok((pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g) ?? []).length <= 14);
});

browser.test('each step leads to its flight', { ...PAGE }, async (page) => {
  await page.locator('#step-turn .lesson-fly a').click();
  await page.waitForFunction(() => document.getElementById('lesson-title')?.textContent === 'Wind in the turn');
});

test('the page that flies leads here, with and without JavaScript', async () => {
  const { page, close } = await browser.open({ at: '', ready: null, javaScriptEnabled: false });
  assert.ok(await page.getByRole('link', { name: words['page.reading.link'] }).count() >= 2);
  await page.locator('noscript a, .notice a').first().click();
  assert.equal(await text(page, 'h1'), lesson.title);
  await close();
});
