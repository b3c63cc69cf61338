// A page of another site with the lesson in a frame: what the tests of embedding share.
import assert from 'node:assert/strict';
import { createServer } from 'node:http';
import { after } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { PATIENCE_MS, SITE, drawn, launch } from './lesson.mjs';

/** @typedef {import('playwright-core').Page} Page */
/** @typedef {import('playwright-core').Frame} Frame */

/** What a host page keeps of what it hears. */
const LISTENS = `globalThis.heard = [];
addEventListener('message', ({ data, origin, source }) => { heard.push({ data, origin, framed: source === document.querySelector('iframe').contentWindow }); });`;

/** A server that hands out one page, at localhost: to a browser another site than 127.0.0.1. */
export async function hostServer() {
  let html = '';
  const server = createServer((_, response) => {
    response.writeHead(200, { 'Content-Type': 'text/html; charset=utf-8' });
    response.end(html);
  });
  await new Promise((done) => { server.listen(0, '127.0.0.1', () => done(null)); });
  const address = server.address();
  return {
    origin: `http://localhost:${typeof address === 'object' && address ? address.port : 0}`,
    /** @param {string} page */
    show(page) { html = page; },
    close() {
      server.close();
      server.closeAllConnections();
    },
  };
}

/**
 * Two sites: the lesson's at 127.0.0.1, and a host's at localhost, which a browser takes for another.
 * @param {Record<string, string>} [headers] The lesson's server adds them.
 */
export async function twoSites(headers = {}) {
  const lesson = await serve(SITE, 0, headers);
  const server = await hostServer();
  const host = server.origin;
  const browser = await launch({ gl: false });
  after(async () => {
    await browser.close();
    await lesson.close();
    server.close();
  });

  /**
   * Opens a host page and waits for the lesson in its frame.
   * @param {string} page_html
   * @param {import('playwright-core').BrowserContextOptions} [options]
   * @param {string} [ready] What the lesson says of itself then.
   */
  async function openHost(page_html, options = {}, ready = 'core') {
    server.show(page_html);
    const context = await browser.newContext({ viewport: { width: 900, height: 900 }, ...options });
    context.setDefaultTimeout(PATIENCE_MS);
    const page = await context.newPage();
    /** @type {string[]} */
    const complaints = [];
    page.on('console', (message) => { if (message.type() === 'error') complaints.push(message.text()); });
    page.on('pageerror', (error) => complaints.push(String(error.stack)));
    await page.goto(`${host}/`);
    const frame = await (await page.waitForSelector('iframe')).contentFrame();
    assert.ok(frame);
    await frame.waitForFunction((want) => document.documentElement.dataset.ready === want, ready);
    await drawnIn(frame);
    return { page, frame, complaints, close: () => context.close() };
  }

  return {
    lesson: lesson.url, host, browser, openHost,
    /** A host page that keeps what it hears. @param {string} src Query and hash. @param {string} [attributes] Of the frame. */
    page: (src, attributes = 'width="800" height="760"') =>
      `<!doctype html><html lang="en"><title>Host</title><body><script>${LISTENS}</script>
<iframe title="Lesson" src="${lesson.url}${src.replaceAll('&', '&amp;')}" ${attributes}></iframe>`,
  };
}

/** @param {Frame} frame */
export const drawnIn = (frame) => drawn(/** @type {any} */ (frame));

/** What the host has heard of a kind, oldest first. @param {Page} page @param {string} kind @returns {Promise<any[]>} */
export const heardOf = (page, kind) => page.evaluate((want) => /** @type {any} */ (globalThis).heard
  .map((/** @type {any} */ { data }) => data).filter((/** @type {any} */ data) => data.lesson === 'holding-entry' && data.kind === want), kind);

/** Waits until the host has heard `count` of a kind. @param {Page} page @param {string} kind @param {number} [count] */
export async function hears(page, kind, count = 1) {
  await page.waitForFunction(([want, n]) => /** @type {any} */ (globalThis).heard
    .filter((/** @type {any} */ { data }) => data.lesson === 'holding-entry' && data.kind === want).length >= n, /** @type {const} */ ([kind, count]));
  return heardOf(page, kind);
}

/** Sends from the host's own window. @param {Page} page @param {unknown} message */
export const tell = (page, message) => page.evaluate((what) =>
  /** @type {HTMLIFrameElement} */ (document.querySelector('iframe')).contentWindow?.postMessage(what, '*'), message);

/** Gives some answer to the question that is asked, and commits it by its button or by Enter. */
/** @param {Frame} frame @param {'button' | 'Enter'} [by] */
export async function giveSomeAnswer(frame, by = 'button') {
  const kind = await frame.evaluate(() => {
    const { item } = /** @type {any} */ (globalThis).__lesson.core.tutor().state();
    return item.steps[item.asked].kind;
  });
  if (kind === 'choice') {
    await frame.locator('#practice-form input[type=radio]').first().check();
  } else {
    await frame.locator('#practice-answer').fill(kind === 'seconds' ? '1:10' : '7');
    if (await frame.locator('input[name=practice-side]').count()) await frame.locator('input[name=practice-side]').first().check();
  }
  if (by === 'Enter') await frame.locator('#practice-form input:focus').press('Enter');
  else await frame.locator('.lesson-commit').click();
  await frame.waitForSelector('#practice-verdict');
}
