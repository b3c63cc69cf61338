// Ways in which what the page fetches may fail, and what must hold all the same.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SITE, addressSettled, ask, coreInNode, enter, reveal, svgSays, text } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('playwright-core').Route} Route */

/** Long enough to be seen waiting, short enough for a test. */
const SLOW_MS = 700;

/** @param {Route} route */
const fileOf = (route) => readFileSync(join(SITE, new URL(route.request().url()).pathname));

/** How a module may come, or not. @type {Record<string, (route: Route) => Promise<void>>} */
export const BROKEN = {
  blocked: (route) => route.abort('blockedbyclient'),
  absent: (route) => route.fulfill({ status: 404, contentType: 'text/plain', body: 'Not found' }),
  'a page in its place': (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Sign in</title>' }),
  truncated: (route) => {
    const bytes = fileOf(route);
    return route.fulfill({ contentType: 'application/wasm', body: bytes.subarray(0, Math.floor(bytes.length / 2)) });
  },
  empty: (route) => route.fulfill({ contentType: 'application/wasm', body: '' }),
};

/** What a server may do that spoils nothing. @type {Record<string, (route: Route) => Promise<void>>} */
export const ODD = {
  'of another type': (route) => route.fulfill({ contentType: 'application/octet-stream', body: fileOf(route) }),
  slow: async (route) => {
    await new Promise((done) => { setTimeout(done, SLOW_MS); });
    // The page may have gone meanwhile.
    await route.continue().catch(() => {});
  },
};

const core = await coreInNode();

/** A field, the words, the picture and the address go on: a wind is entered and flown. @param {Page} page @param {number} knots */
export async function works(page, knots) {
  await reveal(page, 'wind-kt');
  await enter(page, 'wind-kt', String(knots));
  await addressSettled(page);
  const link = await ask(page, 'link');
  assert.match(link, new RegExp(`wind=\\d+/${knots}(&|$)`));
  await page.waitForFunction((want) => document.getElementById('summary')?.textContent === want, core.evaluate(link).summary);
  if (await page.locator('#picture > svg').count()) await svgSays(page, `/ ${knots} kt`);
}

/** Said to the person, seen and heard. @param {Page} page @param {RegExp} words */
export async function isSaid(page, words) {
  await page.locator('#notice', { hasText: words }).waitFor();
  assert.equal(await page.locator('#notice').getAttribute('role'), 'alert');
}

/** The page as it came: the opening scene in picture and words, and nothing that would not work. @param {Page} page */
export async function standsAsItCame(page) {
  assert.equal(await page.locator('#picture svg:visible').count(), 1);
  assert.match((await page.locator('#picture svg:visible').textContent() ?? '').replace(/\s+/g, ' '), /160° \/ 24 kt/);
  assert.equal(await text(page, '#summary'), core.evaluate('').summary);
  for (const id of ['#f-wind-from', '#play', '#reset', '#tab-wind']) assert.equal(await page.locator(id).isDisabled(), true, id);
}

/** Before the page: a clock that the test winds. @param {Page} page */
export const wound = (page) => page.clock.install({ time: 0 });

/** Hides the page, or shows it again, as a browser tells it. @param {Page} page @param {boolean} hidden */
export const hide = (page, hidden) => page.evaluate((on) => {
  Object.defineProperty(document, 'hidden', { configurable: true, get: () => on });
  Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => (on ? 'hidden' : 'visible') });
  document.dispatchEvent(new Event('visibilitychange'));
}, hidden);

/** No text in view that a program let slip, but for what the page quotes as it was given. @param {Page} page */
export async function saysNoNonsense(page) {
  const said = await page.evaluate(() => document.body.innerText.replace(/“[^”]*”/g, '').match(/.{0,30}\b(NaN|undefined|null|Infinity|\[object \w+\])\b.{0,30}/)?.[0] ?? '');
  assert.equal(said, '');
}
