// The page loads: complete, quiet, from its own origin, and the canvas draws crisply.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { ask, lessons, live, pictureBox, view } from './lesson.mjs';
import { countColour, readPng } from './png.mjs';

const lesson = await lessons();

/** Paints of core/theme.cpp. */
const FLOWN = 0x0072b2;
const MISS = 0xb84a00;
const PAPER = 0xfbfaf7;

/** @param {import('./lesson.mjs').Page} page */
const pixels = async (page) => readPng(await page.screenshot({ clip: await pictureBox(page) }));

test('every file has the type that a strict browser wants', async () => {
  for (const [file, type] of [['', 'text/html'], ['main.js', 'text/javascript'], ['core.mjs', 'text/javascript'],
    ['core.wasm', 'application/wasm'], ['view.wasm', 'application/wasm'], ['page.css', 'text/css'],
    ['fonts/text-regular.woff2', 'font/woff2'], ['icon.svg', 'image/svg+xml']]) {
    const answer = await fetch(lesson.url + file, { method: 'HEAD' });
    assert.equal(answer.status, 200, file);
    assert.equal(answer.headers.get('content-type')?.split(';')[0], type, file);
  }
});

lesson.test('the page has its own letters', { at: '?webgl=false' }, async (page) => {
  await page.evaluate(() => document.fonts.ready);
  assert.ok(await page.evaluate(() => [...document.fonts].every((f) => f.status === 'loaded')));
});

lesson.test('the canvas takes over from the first picture and is painted', {}, async (page) => {
  assert.equal(await page.locator('#picture > canvas#canvas').count(), 1);
  assert.equal(await page.locator('#picture svg').count(), 0);
  await ask(page, 'seek', (await live(page)).end_s);
  await page.locator('#next').click();
  const picture = await pixels(page);
  const all = picture.width * picture.height;
  assert.ok(countColour(picture, PAPER) > all / 2, 'paper');
  assert.ok(countColour(picture, FLOWN) > 1500, 'the flown track, and heavy');
  assert.ok(countColour(picture, MISS) > 150, 'the miss at the roll-out');
});

for (const dpr of [1, 1.5, 2]) {
  lesson.test(`at ${dpr} pixels to the CSS pixel the canvas has just so many`, { deviceScaleFactor: dpr }, async (page) => {
    const size = await page.evaluate(() => {
      const canvas = document.querySelector('canvas');
      const box = canvas?.getBoundingClientRect();
      return canvas && box ? { width: canvas.width, height: canvas.height, css_w: box.width, css_h: box.height } : null;
    });
    assert.ok(size);
    assert.equal(size.width, Math.round(size.css_w * dpr));
    assert.equal(size.height, Math.round(size.css_h * dpr));
    assert.ok(size.css_w > 600 && size.css_h > 400, 'and it is large');
    assert.ok(await edgeOfTrack(page, dpr) <= 3, 'from paper to ink in at most three pixels');
  });
}

/**
 * Across the flown track, where nothing else is: pixels that are neither paper nor ink, on
 * the softer of its two sides.
 * @param {import('./lesson.mjs').Page} page @param {number} dpr
 */
async function edgeOfTrack(page, dpr) {
  // Only the track is left in the picture there.
  for (const layer of ['exact', 'air_path', 'no_correction', 'pattern', 'streaks', 'marks']) await ask(page, 'layer', layer, false);
  await ask(page, 'seek', -15);
  const at = await live(page);
  const v = await view(page);
  await ask(page, 'seek', at.end_s);
  await page.locator('#next').click();
  await page.mouse.move(5, 5);
  const picture = await pixels(page);
  const x = Math.round((v.width / 2 + (at.x_nm - v.x) * v.px_per_nm) * dpr);
  const y = Math.round((v.height / 2 - (at.y_nm - v.y) * v.px_per_nm) * dpr);
  assert.deepEqual(picture.at(x, y), [0, 0x72, 0xb2], 'the track is where the core says');
  const soft = [-1, 1].map((way) => {
    let count = 0;
    for (let i = 1; i < 12 * dpr; ++i) {
      const [red] = picture.at(x, y + way * i);
      if (red > 4 && red < 0xfb - 4) ++count;
    }
    return count;
  });
  return Math.max(...soft);
}

lesson.test('the canvas follows the window', { viewport: { width: 1280, height: 860 } }, async (page) => {
  const before = await page.evaluate(() => document.querySelector('canvas')?.width);
  await page.setViewportSize({ width: 800, height: 900 });
  await page.waitForFunction((was) => {
    const canvas = document.querySelector('canvas');
    const picture = document.getElementById('picture');
    return canvas && picture && canvas.width !== was && canvas.width === Math.floor(picture.clientWidth);
  }, before);
  const v = await view(page);
  assert.equal(v.width, await page.evaluate(() => document.querySelector('canvas')?.width));
});
