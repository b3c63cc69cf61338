// What every browser test needs: a server for the built page, Chromium, and tests that each
// get a page of their own and fail where that page complains.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { join, resolve } from 'node:path';
import { after, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { serve } from '../../web/serve.mjs';

/** @typedef {import('playwright-core').Page} Page */
/** @typedef {import('playwright-core').BrowserContextOptions} ContextOptions */
/** @typedef {import('../../shell/types').Evaluation} Evaluation */
/** @typedef {import('../../shell/types').Live} Live */

const here = fileURLToPath(new URL('.', import.meta.url));
export const SITE = resolve(process.env.SITE ?? join(here, '../../build/site'));

const FLAGS = ['--no-sandbox', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync'];
// The page itself is put together without the software GPU: it costs twice the time.
const SOFTWARE_GL = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-gpu-compositing'];
const NO_GL = ['--disable-gpu', '--disable-software-rasterizer', '--disable-3d-apis'];

/** What Chromium says about its own software rendering while a test reads pixels, and Playwright of the worker. */
const NOT_OURS = /GPU stall due to ReadPixels|software WebGL|Service Worker registration blocked by Playwright/i;
/**
 * Chromium asks for a page's icon by itself, at times for a page that has gone already, and then complains.
 * @param {import('playwright-core').ConsoleMessage} message
 */
export const isOfIcon = (message) => /\/icon\.svg$/.test(message.location().url) || /icon\.svg' from origin 'null'/.test(message.text());
/** Long enough for a busy machine; nothing here waits this long on a quiet one. */
export const PATIENCE_MS = 30000;

/** A canvas costs by the pixel: for tests of the painter that need no room. */
export const SMALL = { width: 800, height: 600 };

/** @param {{gl?: boolean}} [how] */
export function launch({ gl = true } = {}) {
  const executablePath = execFileSync('sh', ['-c', 'command -v chromium'], { encoding: 'utf8' }).trim();
  return chromium.launch({ executablePath, args: [...FLAGS, ...(gl ? SOFTWARE_GL : NO_GL)] });
}

/** The built core in this Node process. @returns {Promise<import('../../shell/types').Core>} */
export async function coreInNode() {
  const { load } = await import(pathToFileURL(join(SITE, 'core.mjs')).href);
  return load();
}

/** The built study module in this Node process, without SIMD. @returns {Promise<import('../../web/study.mjs').Study>} */
export async function studyInNode() {
  const { load } = await import(pathToFileURL(join(SITE, 'study.mjs')).href);
  return load({ simd: false });
}

/**
 * @typedef {object} Wanted
 * @property {string} [at] Query and hash of the address.
 * @property {string | null} [ready] Value of data-ready to wait for; null: none. By default
 *   `view`, or `core` where the address turns WebGL off.
 * @property {boolean} [mayComplain] Console errors are part of the test.
 * @property {number} [patience_ms] For a test that does more than others.
 * @property {(page: Page) => Promise<unknown>} [before] Runs before the page is loaded.
 */

/**
 * The page's complaints: errors, warnings, and requests to another origin.
 * @param {Page} page
 * @param {string} origin
 */
function watch(page, origin) {
  /** @type {string[]} */
  const complaints = [];
  page.on('console', (message) => {
    if (!['error', 'warning'].includes(message.type()) || NOT_OURS.test(message.text()) || isOfIcon(message)) return;
    complaints.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`error: ${error.stack ?? error}`));
  page.on('request', (request) => {
    if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(origin)) {
      complaints.push(`asked ${request.url()}`);
    }
  });
  return complaints;
}

/**
 * A server and a browser for one test file, closed after it.
 * @param {{gl?: boolean, folder?: string}} [how] `folder`: what is served, if not the page.
 */
export async function lessons({ folder = SITE, ...how } = {}) {
  const site = await serve(folder);
  const browser = await launch(how);
  after(async () => {
    await browser.close();
    await site.close();
  });

  /** @param {Wanted & ContextOptions} wanted */
  async function open({ at = '', ready, mayComplain, before, patience_ms: _, ...options }) {
    const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, serviceWorkers: 'block', ...options });
    context.setDefaultTimeout(PATIENCE_MS);
    const page = await context.newPage();
    const complaints = watch(page, site.url);
    await before?.(page);
    await page.goto(site.url + at);
    const state = ready === undefined ? (/webgl=false/.test(at) ? 'core' : 'view') : ready;
    if (state) await isReady(page, state);
    return {
      page,
      complaints,
      async close() {
        await context.close();
        if (!mayComplain) assert.deepEqual(complaints, []);
      },
    };
  }

  return {
    url: site.url,
    browser,
    open,
    /**
     * One test on a fresh page.
     * @param {string} name
     * @param {Wanted & ContextOptions} wanted
     * @param {(page: Page, complaints: string[]) => Promise<void>} body
     */
    test(name, wanted, body) {
      test(name, { timeout: wanted.patience_ms ?? 3 * PATIENCE_MS }, async () => {
        const { page, complaints, close } = await open(wanted);
        try {
          await body(page, complaints);
        } catch (error) {
          if (complaints.length && !wanted.mayComplain) console.error(complaints.join('\n'));
          await page.context().close();
          throw error;
        }
        await close();
      });
    },
  };
}

/** Waits for the page's own word that it is there, drawn. @param {Page} page @param {string} state */
export async function isReady(page, state) {
  await page.waitForFunction((want) => document.documentElement.dataset.ready === want, state);
  await drawn(page);
}

/** Two frames: what was changed before has been read and drawn by then. @param {Page} page */
export const drawn = (page) => page.evaluate(() => new Promise((done) =>
  requestAnimationFrame(() => requestAnimationFrame(() => done(null)))));

/** In the page: whether it asks for no frame for a while. @returns {Promise<boolean>} */
export const isStill = () => new Promise((done) => {
  const before = globalThis.__lesson?.frames();
  let left = 12;
  const look = () => {
    if (globalThis.__lesson?.frames() !== before) done(false);
    else if (--left === 0) done(true);
    else requestAnimationFrame(look);
  };
  look();
});

/** Waits until the page has asked for no frame for a while. @param {Page} page */
export const atRest = (page) => page.waitForFunction(isStill);

/** With what comes later, too. @param {Page} page */
export const wholeCore = (page) => page.evaluate(() => globalThis.__lesson?.core.more());

/**
 * Calls a function of the page's session.
 * @param {Page} page
 * @param {keyof import('../../shell/types').Session} name
 * @param {...unknown} args
 * @returns {Promise<any>}
 */
export const ask = (page, name, ...args) => page.evaluate(([n, a]) => {
  const session = /** @type {any} */ (globalThis.__lesson?.session);
  return session[/** @type {string} */ (n)](.../** @type {unknown[]} */ (a));
}, [name, args]);

/** @param {Page} page @returns {Promise<Live>} */
export const live = (page) => ask(page, 'live');

/** @param {Page} page @returns {Promise<Evaluation>} */
export const report = (page) => ask(page, 'report');

/** Scale and centre of the picture. @param {Page} page */
export const view = (page) => page.evaluate(() => {
  const d = globalThis.__lesson?.session.diagram();
  if (!d) throw new Error('no lesson');
  return { px_per_nm: d.px_per_nm, x: d.centre_x, y: d.centre_y, width: d.width, height: d.height };
});

/** Left top corner of the picture in the window. @param {Page} page */
export async function pictureBox(page) {
  const box = await page.locator('#picture').boundingBox();
  if (!box) throw new Error('no picture');
  return box;
}

export const WIND = 1;
export const INBOUND = 2;
export const ARRIVAL = 3;
export const TURNS = 4;

/** Middle of a handle in the window. @param {Page} page @param {number} which */
export async function handlePlace(page, which) {
  const at = await ask(page, 'handle', which);
  assert.ok(at, `handle ${which} has no place`);
  const box = await pictureBox(page);
  return { x: box.x + at.x, y: box.y + at.y };
}

/** Waits until the address says the session's scenario, and the page shows it. @param {Page} page */
export async function addressSettled(page) {
  await page.waitForFunction(() => {
    const view = document.getElementById('column')?.dataset.view;
    const link = globalThis.__lesson?.session.link();
    return location.hash.replace(/^#/, '') === [link, view === 'plan' ? '' : `view=${view}`].filter(Boolean).join('&');
  });
  await drawn(page);
}

/** @param {Page} page @param {string} selector */
export const text = async (page, selector) =>
  (await page.locator(selector).innerText()).replace(/\s+/g, ' ').trim();

/**
 * Types a field's text as a person does, and leaves the field.
 * @param {Page} page @param {string} id Id in shell/fields.js. @param {string} value
 */
export async function enter(page, id, value) {
  const field = page.locator(`#f-${id}`);
  await field.fill(value);
  await field.press('Tab');
}

/** Waits until a field shows this text. @param {Page} page @param {string} id @param {string} value */
export const fieldSays = (page, id, value) => page.waitForFunction(([name, want]) =>
  /** @type {HTMLInputElement | null} */ (document.getElementById(`f-${name}`))?.value === want, [id, value])
  .catch(async () => assert.equal(await page.locator(`#f-${id}`).inputValue(), value, id));

/** Waits until the picture, as SVG, has a label with these words. @param {Page} page @param {string} words */
export const svgSays = (page, words) => page.waitForFunction((want) =>
  document.querySelector('#picture > svg')?.textContent?.includes(want), words)
  .catch(async () => assert.fail(`“${words}” is not in “${await page.locator('#picture').textContent()}”`.replace(/\s+/g, ' ')));

/** The views of the right-hand column, in the order of their tabs. */
export const VIEWS = ['plan', 'clearance', 'entry', 'wind', 'laps', 'miss', 'displays', 'limits'];

/** @param {Page} page @param {string} name */
export async function openView(page, name) {
  await page.locator(`#tab-${name}`).click();
  await viewIsOpen(page, name);
}

/** A view comes over the network when it is first asked for. @param {Page} page @param {string} name */
export async function viewIsOpen(page, name) {
  await page.locator(`#view-${name}`).waitFor();
  await drawn(page);
}

/** Opens the view that has a field, where it is not open yet. @param {Page} page @param {string} id */
export async function reveal(page, id) {
  const view = await page.locator(`#field-${id}`).evaluate((field) => field.closest('[role="tabpanel"]')?.id.replace('view-', ''));
  if (view && !await page.locator(`#view-${view}`).isVisible()) await openView(page, view);
}

/** The part of the form that holds a field may be folded. @param {Page} page */
export const unfold = (page) => page.evaluate(() => {
  for (const details of document.querySelectorAll('details')) details.open = true;
});

/** Before the page: it has no worker, and the timers that are set are counted. @param {Page} page */
export const withoutWorker = (page) => page.addInitScript(() => {
  Reflect.deleteProperty(globalThis, 'Worker');
  const later = globalThis.setTimeout;
  let count = 0;
  Object.defineProperty(globalThis, 'timersSet', { get: () => count });
  globalThis.setTimeout = /** @type {typeof setTimeout} */ ((/** @type {any[]} */ ...args) => {
    count += 1;
    return later(.../** @type {[any, any]} */ (args));
  });
});
/** After withoutWorker(). @param {Page} page @returns {Promise<number>} */
export const timersSet = (page) => page.evaluate(() => /** @type {any} */ (globalThis).timersSet);
