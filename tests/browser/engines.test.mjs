// The page in three engines. Every row of the tables in every engine; what an engine lacks is
// skipped by name. ENGINES=webkit runs one engine alone.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, describe, test } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { CASES } from './engine-cases.mjs';
import { PLACES } from './engine-places.mjs';
import { ENGINES, listenIn, startEngine } from './engines.mjs';
import { PATIENCE_MS, SITE } from './lesson.mjs';

/** Longest that an engine may take to start, and one case to run. */
const CASE_MS = 3 * PATIENCE_MS;

for (const name of ENGINES) {
  describe(name, () => {
    /** @type {(() => unknown)[]} Undone in the other order. */
    const undo = [];
    let url = '';
    let folder = SITE;
    let [started, has_gl] = [false, false];
    /** @type {import('./engines.mjs').Engine} */
    let page;

    // A test, so that an engine that is not there is one failure that says why.
    test('it starts', { timeout: CASE_MS }, async () => {
      page = await startEngine(name);
      undo.push(page.close);
      if (page.deaf) {
        folder = mkdtempSync(join(tmpdir(), 'listening-'));
        undo.push(() => rmSync(folder, { recursive: true }));
        cpSync(SITE, folder, { recursive: true });
        listenIn(folder);
      }
      const site = await serve(folder);
      undo.push(site.close);
      url = site.url;
      started = true;
      has_gl = await page.evaluate(() => document.createElement('canvas').getContext('webgl2') !== null);
    });
    after(async () => {
      for (const step of undo.reverse()) await step();
    });

    test('a complaint of the page is heard', { timeout: CASE_MS }, async (t) => {
      if (!started) {
        t.skip('it did not start');
        return;
      }
      await page.open(`${url}?webgl=false`);
      await page.waitFor(() => document.documentElement.dataset.ready === 'core');
      await page.evaluate(() => {
        console.error('written');
        setTimeout(() => { throw new Error('thrown'); });
      });
      let heard = '';
      while (!/written/.test(heard) || !/thrown/.test(heard)) {
        await page.evaluate(() => new Promise(requestAnimationFrame));
        heard += (await page.complaints()).join('\n');
      }
    });

    for (const { name: what, run, canvas, complains } of [...CASES, ...PLACES]) {
      test(what, { timeout: CASE_MS }, async (t) => {
        const lacking = !started ? 'it did not start' : canvas && !has_gl ? 'it has no WebGL on this machine' : '';
        if (lacking) {
          t.skip(lacking);
          return;
        }
        await page.complaints();
        try {
          await run(page, { url, folder });
        } catch (error) {
          for (const line of await page.complaints()) t.diagnostic(line);
          // The next case starts anew.
          await page.open('about:blank');
          throw error;
        }
        assert.deepEqual((await page.complaints()).filter((line) => !complains?.test(line)), []);
      });
    }
  });
}
