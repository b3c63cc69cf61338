// The page in three engines. Every row of the table in every engine; what an engine lacks is
// skipped by name. ENGINES=webkit runs one engine alone.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { CASES, CASE_MS } from './engine-cases.mjs';
import { ENGINES, listeningSite, startEngine } from './engines.mjs';
import { SITE } from './lesson.mjs';

/** Longest that an engine may take to start. */
const START_MS = 60000;

for (const name of ENGINES) {
  describe(name, () => {
    /** @type {(() => unknown)[]} Undone in the other order. */
    const undo = [];
    let url = '';
    let has_gl = false;
    /** @type {import('./engines.mjs').Engine} */
    let page;

    before(async () => {
      let folder = SITE;
      if (name === 'webkit') {
        const listening = listeningSite(SITE);
        undo.push(listening.remove);
        folder = listening.folder;
      }
      const site = await serve(folder);
      undo.push(site.close);
      url = site.url;
      page = await startEngine(name);
      undo.push(page.close);
      has_gl = await page.evaluate(() => document.createElement('canvas').getContext('webgl2') !== null);
    }, { timeout: START_MS });
    after(async () => {
      for (const step of undo.reverse()) await step();
    });

    test('a complaint of the page is heard', { timeout: CASE_MS }, async () => {
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

    for (const { name: what, run, lacks, canvas } of CASES) {
      test(what, { timeout: CASE_MS, skip: lacks?.[name] }, async (t) => {
        if (canvas && !has_gl) {
          t.skip(`${name} has no WebGL on this machine`);
          return;
        }
        await page.complaints();
        await run(page, url);
        assert.deepEqual(await page.complaints(), []);
      });
    }
  });
}
