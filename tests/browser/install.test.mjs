// Installed and offline: the page works with its server gone, a new version is offered and taken
// only when asked, and the manifest and icons are what a system needs.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { fillWorker } from '../../web/build-worker.mjs';
import { axeFindsNothing } from './access.mjs';
import { ICONS, drawIcons } from './icons.mjs';
import { PATIENCE_MS, SITE, drawn, isReady, launch, text } from './lesson.mjs';
import { countChanged, readPng } from './png.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */

const browser = await launch();
/** @type {string[]} */
const folders = [];
after(async () => {
  await browser.close();
  for (const folder of folders) rmSync(folder, { recursive: true });
});

/** A copy of the page that a test may change, in a folder of a server. */
async function copy() {
  const root = mkdtempSync(join(tmpdir(), 'install-'));
  folders.push(root);
  const site = join(root, 'lesson');
  cpSync(SITE, site, { recursive: true });
  const server = await serve(root);
  return { site, server, url: `${server.url}lesson/` };
}

/**
 * @param {string} name
 * @param {(lesson: {page: Page, site: string, url: string, stop: () => Promise<void>, context: import('playwright-core').BrowserContext}) => Promise<void>} body
 */
const installed = (name, body) => test(name, { timeout: 3 * PATIENCE_MS }, async () => {
  const { site, server, url } = await copy();
  const context = await browser.newContext({ viewport: { width: 1280, height: 860 } });
  context.setDefaultTimeout(PATIENCE_MS);
  const page = await context.newPage();
  /** @type {string[]} */
  const complaints = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  let up = true;
  const stop = async () => {
    if (up) await server.close();
    up = false;
  };
  try {
    await page.goto(`${url}?webgl=false`);
    await isReady(page, 'core');
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
    await body({ page, site, url, stop, context });
    // Chromium says so itself where it looks for a new worker and finds no server.
    assert.deepEqual(complaints.filter((line) => !/ERR_CONNECTION_REFUSED/.test(line)), []);
  } finally {
    await context.close();
    await stop();
  }
});

const caches = (/** @type {Page} */ page) => page.evaluate(() => window.caches.keys());

/** Another build: a changed file, and the worker filled in again. @param {string} site */
function rebuild(site) {
  const page = join(site, 'index.html');
  writeFileSync(page, readFileSync(page, 'utf8').replace('<html lang="en"', '<html lang="en" data-build="second"'));
  const file = join(site, 'service-worker.js');
  const filled = readFileSync(file, 'utf8');
  writeFileSync(file, filled.replace(/const BUILD = '\w+'/, "const BUILD = '{{build}}'").replace(/const FILES = \[[^\]]*\]/, "const FILES = ['{{files}}']"));
  fillWorker(site);
  assert.notEqual(readFileSync(file, 'utf8'), filled, 'another build is another worker');
}

/** @param {Page} page */
const policyOf = (page) => page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');

installed('it may be installed, and after the first load works with the server gone, every query and page of it', async ({ page, url, stop, context }) => {
  const devtools = await context.newCDPSession(page);
  const { errors, url: at } = await devtools.send('Page.getAppManifest');
  assert.deepEqual(errors, [], 'the browser finds nothing wrong with the manifest');
  assert.equal(at, `${url}manifest.webmanifest`);
  const { appId } = await devtools.send('Page.getAppId');
  assert.equal(appId, url, 'two copies at one origin are two');
  const policy = await policyOf(page);
  assert.match(policy ?? '', /worker-src 'self'; manifest-src 'self'/);
  // The worker has come and gone to work, and the page heard of it.
  await page.waitForFunction(async () => {
    const kept = await navigator.serviceWorker.getRegistration();
    return kept?.active?.state === 'activated' && navigator.serviceWorker.controller === kept.active && !kept.installing && !kept.waiting;
  });
  await drawn(page);
  assert.equal(await page.locator('#update').isVisible(), false, 'the first to come is no new version');
  await stop();
  await page.goto(`${url}?webgl=false&course=17#wind=200/30&mode=lesson`);
  await isReady(page, 'core');
  await page.locator('#mode-lesson .lesson-title').first().waitFor();
  assert.equal(await policyOf(page), policy, 'the policy stands in what the worker gives');
  await page.goto(`${url}index.html#wind=200/30`);
  await isReady(page, 'view');
  assert.match(await text(page, '#summary'), /200° \/ 30|200°/);
  for (const name of ['lesson.html', 'sources.html', 'study.html']) {
    await page.goto(url + name);
    assert.match(await page.title(), /./);
    assert.equal(await page.locator('h1').count(), 1, name);
  }
});

installed('a new version is offered, put off, and taken only when asked; the old one is dropped', async ({ page, url, site, context }) => {
  const [old] = await caches(page);
  rebuild(site);
  await page.goto(`${url}?webgl=false&again=1#wind=200/30&mode=practice`);
  await isReady(page, 'core');
  await page.locator('#practice-check').click();
  await page.locator('#practice-question').waitFor();
  await page.locator('#update').waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.dataset.build), undefined, 'the old one goes on');
  assert.equal(await page.locator('#practice-question').isVisible(), true, 'and so does the question');
  assert.equal(await page.evaluate(() => document.getElementById('update')?.contains(document.activeElement)), false, 'nor is the focus taken');
  await page.setViewportSize({ width: 390, height: 844 });
  await axeFindsNothing(page, 'the offer');
  await page.locator('#update-later').click();
  assert.equal(await page.locator('#update').isVisible(), false);
  const other = await context.newPage();
  await other.goto(`${url}?webgl=false`);
  await isReady(other, 'core');
  assert.equal(await other.evaluate(() => document.documentElement.dataset.build), undefined, 'not by opening another window');
  await other.locator('#update').waitFor();
  await other.locator('#update-take').click();
  await other.waitForFunction(() => document.documentElement.dataset.build === 'second');
  await isReady(other, 'core');
  // The window that did not ask is told, and left alone.
  await page.locator('#update').waitFor();
  assert.equal(await page.locator('#practice-question').isVisible(), true);
  const now = await caches(other);
  assert.equal(now.length, 1);
  assert.notEqual(now[0], old);
  await page.locator('#update-take').click();
  await page.waitForFunction(() => document.documentElement.dataset.build === 'second');
  await drawn(other);
});

test('a page in a frame keeps no worker, and a page that may have none works', { timeout: 3 * PATIENCE_MS }, async () => {
  const { server, url } = await copy();
  const context = await browser.newContext();
  try {
    const page = await context.newPage();
    await page.goto(`${url}icon.svg`);
    const outer = await context.newPage();
    writeFileSync(join(folders.at(-1) ?? '', 'frame.html'), `<!doctype html><title>a frame</title><iframe title="lesson" src="lesson/?webgl=false"></iframe>`);
    await outer.goto(`${server.url}frame.html`);
    const frame = outer.frames()[1];
    await frame.waitForFunction(() => document.documentElement.dataset.ready === 'core');
    assert.equal(await frame.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length), 0);
    const bare = await context.newPage();
    /** @type {string[]} */
    const errors = [];
    bare.on('pageerror', (error) => errors.push(String(error)));
    await bare.addInitScript(() => {
      Object.defineProperty(navigator, 'serviceWorker', { get() { throw new DOMException('not here', 'SecurityError'); } });
    });
    await bare.goto(`${url}?webgl=false`);
    await isReady(bare, 'core');
    assert.deepEqual(errors, []);
  } finally {
    await context.close();
    await server.close();
  }
});

test('the worker keeps every file of the page, and its name is a hash of them', () => {
  const worker = readFileSync(join(SITE, 'service-worker.js'), 'utf8');
  const listed = JSON.parse(/const FILES = (\[[^\]]*\])/.exec(worker)?.[1] ?? '[]');
  const there = readdirSync(SITE, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(SITE.length + 1));
  assert.deepEqual([...listed].sort(), there.filter((name) => !['service-worker.js', 'contents.spdx.json'].includes(name)).map((name) => (name === 'index.html' ? './' : name)).sort());
  assert.match(worker, /const BUILD = '[0-9a-f]{16}'/);
});

test('the manifest is whole, and its icons are of their sizes and what the drawing says', async () => {
  const manifest = JSON.parse(readFileSync(join(SITE, 'manifest.webmanifest'), 'utf8'));
  for (const key of ['name', 'short_name', 'description']) assert.match(manifest[key], /^[^{}]+$/, key);
  // A relative id would be read from the origin alone; without one the start_url is the id.
  assert.equal(manifest.id, undefined);
  assert.deepEqual([manifest.start_url, manifest.scope, manifest.display], ['./', './', 'standalone']);
  assert.deepEqual(manifest.icons.map((/** @type {any} */ icon) => `${icon.sizes} ${icon.purpose}`), ['192x192 any', '512x512 any', '512x512 maskable']);
  const drawing = await drawIcons(browser);
  for (const { file, px } of ICONS) {
    const icon = readFileSync(join(SITE, 'icons', file));
    const picture = readPng(icon);
    assert.deepEqual([picture.width, picture.height], [px, px], file);
    assert.ok(countChanged(picture, readPng(/** @type {Buffer} */ (drawing.get(file)))) < px, `${file}: node tests/browser/icons.mjs`);
  }
  assert.equal(new Set(ICONS.map(({ file }) => createHash('sha256').update(readFileSync(join(SITE, 'icons', file))).digest('hex'))).size, 3);
});
