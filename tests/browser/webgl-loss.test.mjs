// WebGL lost, late, refused or absent: the SVG of the same diagram stands in, and works.
import assert from 'node:assert/strict';
import {
  WIND, addressSettled, ask, drawn, enter, handlePlace, isReady, launch, lessons, live, pictureBox, svgSays, view,
} from './lesson.mjs';
import { mouse } from './hands.mjs';
import { countChanged, countColour, readPng } from './png.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

/** Takes the graphics context away, and says what stands in the picture right after. @param {Page} page */
const lose = (page) => page.evaluate(() => new Promise((done) => {
  const canvas = /** @type {HTMLCanvasElement} */ (document.getElementById('canvas'));
  const gl = /** @type {WebGLRenderingContext | null} */ (canvas.getContext('webgl') ?? canvas.getContext('webgl2'));
  if (!gl) throw new Error('the canvas has no WebGL');
  canvas.addEventListener('webglcontextlost', () => done([...document.getElementById('picture')?.children ?? []]
    .map((child) => child.tagName.toLowerCase())));
  gl.getExtension('WEBGL_lose_context')?.loseContext();
}));

/** @param {Page} page */
const canvasIsBack = (page) => page.waitForFunction(() => {
  const picture = document.getElementById('picture');
  return picture?.querySelector('canvas') && !picture.querySelector('svg');
});

/** @param {Page} page */
const pixels = async (page) => readPng(await page.screenshot({ clip: await pictureBox(page) }));

lesson.test('a lost context: the SVG at once, then the canvas with everything as it was', {}, async (page) => {
  await enter(page, 'wind-from', '200');
  await page.locator('#zoom-in').click();
  await page.locator('#next').click();
  await page.locator('#next').click();
  await drawn(page);
  await page.mouse.move(3, 3);
  const before = { view: await view(page), live: await live(page), link: await ask(page, 'link'), pixels: await pixels(page) };

  assert.deepEqual(await lose(page), ['svg'], 'the SVG stands in before anything else happens');
  await svgSays(page, 'wind 200° / 24 kt');
  const as_svg = await pixels(page);
  assert.ok(countChanged(before.pixels, as_svg) < 0.03 * as_svg.width * as_svg.height, 'the same picture');

  await canvasIsBack(page);
  await drawn(page);
  assert.deepEqual(await view(page), before.view, 'zoom and place');
  assert.deepEqual(await live(page), before.live, 'the clock');
  assert.equal(await ask(page, 'link'), before.link);
  const after = await pixels(page);
  assert.ok(countChanged(before.pixels, after) < 0.0005 * after.width * after.height, 'pixel by pixel');
  const frames = await page.evaluate(() => globalThis.__lesson?.viewFrames() ?? 0);
  await enter(page, 'wind-from', '210');
  await page.waitForFunction((was) => (globalThis.__lesson?.viewFrames() ?? 0) > was, frames);
  assert.ok(countChanged(after, await pixels(page)) > 500, 'and it is alive');
});

lesson.test('while the context is lost the SVG follows; after too many losses it stays',
  { before: (page) => page.clock.install() }, async (page) => {
    for (const wait of [300, 1500, 5000]) {
      await page.clock.pauseAt(await page.evaluate(() => Date.now()) + 50);
      await lose(page);
      await enter(page, 'wind-kt', String(20 + wait / 500));
      await page.clock.runFor(200);
      await svgSays(page, `/ ${Math.round(20 + wait / 500)} kt`);
      await page.clock.runFor(wait);
      await page.clock.resume();
      await canvasIsBack(page);
      await drawn(page);
      assert.ok(countColour(await pixels(page), 0x0072b2) > 500, 'painted');
    }
    await page.clock.pauseAt(await page.evaluate(() => Date.now()) + 50);
    await lose(page);
    await page.clock.runFor(60000);
    await page.clock.resume();
    assert.equal(await page.locator('#picture canvas').count(), 0);
    await worksAsSvg(page);
  });

/** The main job without a canvas. @param {Page} page */
async function worksAsSvg(page) {
  const svg = page.locator('#picture > svg');
  assert.equal(await svg.count(), 1);
  await page.locator('#reset').click();
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === '');
  await drawn(page);
  const hand = await mouse(page);
  const from = await handlePlace(page, WIND);
  await hand.down(from);
  await hand.move(from, { x: from.x + 12, y: from.y + 6 });
  await hand.up();
  await addressSettled(page);
  const wind = await ask(page, 'link');
  assert.match(wind, /^wind=\d+\/\d+$/);
  const [deg, knots] = wind.slice(5).split('/');
  await svgSays(page, `wind ${deg.padStart(3, '0')}° / ${knots} kt`);
  await page.locator('#speed').selectOption('30');
  const still = await svg.evaluate((el) => el.outerHTML);
  await page.locator('#play').click();
  await page.waitForFunction((was) => document.querySelector('#picture > svg')?.outerHTML !== was, still);
  await page.locator('#play').click();
}

lesson.test('a browser that refuses WebGL keeps the SVG', { ready: 'core', before: (page) => page.addInitScript(() => {
  const get = /** @type {Function} */ (HTMLCanvasElement.prototype.getContext);
  /** @this {HTMLCanvasElement} @param {string} kind @param {...any} rest */
  function refuse(kind, ...rest) {
    return /webgl/.test(kind) ? null : get.call(this, kind, ...rest);
  }
  HTMLCanvasElement.prototype.getContext = /** @type {any} */ (refuse);
}) }, async (page) => {
  await page.waitForFunction(() => performance.getEntriesByName(new URL('view.wasm', location.href).href).length > 0);
  await page.waitForFunction(() => !document.querySelector('#picture canvas'));
  await worksAsSvg(page);
});

lesson.test('?webgl=false never asks for the painter', { at: '?webgl=false' }, async (page) => {
  await worksAsSvg(page);
  const asked = await page.evaluate(() => performance.getEntriesByType('resource').map((entry) => entry.name));
  assert.ok(asked.some((name) => name.endsWith('core.wasm')));
  assert.ok(!asked.some((name) => /view\.(mjs|wasm)/.test(name)));
});

lesson.test('a machine without any WebGL keeps the SVG', { at: '?webgl=false' }, async () => {
  const browser = await launch({ gl: false });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 860 } });
    await page.goto(lesson.url);
    await isReady(page, 'core');
    assert.equal(await page.evaluate(() => document.createElement('canvas').getContext('webgl')), null, 'it has none');
    await page.waitForFunction(() => performance.getEntriesByName(new URL('view.wasm', location.href).href).length > 0);
    await page.waitForFunction(() => !document.querySelector('#picture canvas'));
    await worksAsSvg(page);
  } finally {
    await browser.close();
  }
});
