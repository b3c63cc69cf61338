// Where the page lives besides a site of its own, in every engine: in a course, as a file, in a
// frame of another site, on the device with its server gone.
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { serve } from '../../web/serve.mjs';
import { answerFirst, core, flies, isDrawn, isReady, pixels, says } from './engine-steps.mjs';
import { listenIn, listeningFile } from './engines.mjs';
import { SITE } from './lesson.mjs';
import { unzipped } from './unzip.mjs';

/** @typedef {import('./engine-steps.mjs').Case} Case */

/** @param {(folder: string) => Promise<void>} work */
async function inFolder(work) {
  const folder = mkdtempSync(join(tmpdir(), 'engine-'));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** @param {string} folder @param {(site: {url: string, port: number, close: () => Promise<void>}) => Promise<void>} work */
async function served(folder, work) {
  const site = await serve(folder);
  try {
    await work(site);
  } finally {
    await site.close();
  }
}

/** The course's side, as a script for a page. */
const STUB = readFileSync(fileURLToPath(new URL('course-stub.mjs', import.meta.url)), 'utf8').replace('export function', 'function');

/** A page that is all one frame. @param {string} title @param {string} src @param {string} [script] */
const around = (title, src, script = '') => `<!doctype html><meta charset="utf-8"><title>${title}</title><link rel="icon" href="data:,">
<style>body { margin: 0 } iframe { border: 0; position: absolute; width: 100%; height: 100% }</style>
<script>${script}</script><iframe title="The lesson" src="${src.replaceAll('&', '&amp;')}" allow="fullscreen; clipboard-write"></iframe>`;

/** @type {Case[]} */
export const PLACES = [
  {
    name: 'the course package: a check’s first answer arrives with a commit',
    run: (page) => inFolder(async (folder) => {
      const files = unzipped(readFileSync(join(dirname(SITE), 'lesson-scorm12.zip')));
      for (const [name, bytes] of files) {
        mkdirSync(dirname(join(folder, 'package', name)), { recursive: true });
        writeFileSync(join(folder, 'package', name), bytes);
      }
      if (page.deaf) listenIn(join(folder, 'package'));
      // As a course does: what the manifest names, with what it adds to the address.
      const manifest = String(files.get('imsmanifest.xml'));
      const href = /<resource [^>]*href="([^"]+)"/.exec(manifest)?.[1];
      const parameters = /parameters="([^"]+)"/.exec(manifest)?.[1].replaceAll('&amp;', '&');
      assert.ok(href && parameters);
      writeFileSync(join(folder, 'course.html'), around('A course', `package/${href}${parameters}&webgl=false`,
        `${STUB}; const stub = globalThis.stub = strictCourse(); globalThis.API = stub.api;`));
      const kept = () => page.evaluate(() => {
        const { stub } = /** @type {any} */ (globalThis);
        return { values: stub.kept(), calls: stub.calls, state: stub.state() };
      });
      await served(folder, async ({ url }) => {
        await page.open(`${url}course.html`);
        await page.inside('iframe', async () => {
          await isReady(page, 'core');
          assert.match(await says(page, '#course-said'), /Connected to your course/);
          await answerFirst(page);
        });
        const { values, calls } = await kept();
        assert.equal(values['cmi.core.lesson_status'], 'incomplete');
        assert.match(values['cmi.interactions.0.result'], /^(correct|wrong)$/);
        assert.match(values['cmi.interactions.0.id'], /^mixed-1-\w+-1$/);
        assert.ok(calls.lastIndexOf('LMSCommit') > calls.findIndex((/** @type {string} */ call) => call.startsWith('LMSSetValue cmi.interactions.0.result')));
        assert.ok(!calls.includes('LMSGetLastError'), 'nothing was refused');
        await page.inside('iframe', async () => {
          await page.click('#course-finish');
          await page.waitFor(() => /Saved in your course/.test(document.getElementById('course-said')?.textContent ?? ''));
        });
        assert.equal((await kept()).state, 'finished');
      });
    }),
  },
  {
    name: 'the single file from disk: draws, flies, practises',
    canvas: true,
    run: (page) => inFolder(async (folder) => {
      let file = join(dirname(SITE), 'lesson-offline.html');
      if (page.deaf) {
        const copy = join(folder, 'lesson.html');
        writeFileSync(copy, listeningFile(readFileSync(file, 'utf8')));
        file = copy;
      }
      await page.open(pathToFileURL(file).href);
      await isReady(page, 'view');
      assert.ok((await says(page, '#happens')).includes(core.evaluate('').headline));
      isDrawn(await pixels(page), 'the file');
      await flies(page);
      await page.evaluate(() => { location.hash = 'mode=practice'; });
      await page.waitFor(() => document.getElementById('practice-check')?.checkVisibility());
      await answerFirst(page);
    }),
  },
  {
    name: 'in a frame of another site it draws and flies',
    canvas: true,
    run: (page, { url }) => inFolder(async (folder) => {
      writeFileSync(join(folder, 'index.html'), around('Another site', url));
      await served(folder, async ({ port }) => {
        // The server is at 127.0.0.1: another name is another site, not only another port.
        await page.open(`http://localhost:${port}/`);
        await page.inside('iframe', async () => {
          await isReady(page, 'view');
          assert.equal(await page.evaluate(() => {
            try {
              return String(parent.document);
            } catch {
              return 'closed';
            }
          }), 'closed');
          isDrawn(await pixels(page), 'the frame');
          await flies(page);
        });
      });
    }),
  },
  {
    name: 'kept on the device, it opens with its server gone',
    // Each engine says itself that it looked for a new worker and found no server.
    complains: /ERR_CONNECTION_REFUSED|service.?worker/i,
    async run(page, { folder }) {
      let from = '';
      await served(folder, async ({ url }) => {
        from = url;
        await page.open(`${url}?webgl=false`);
        await isReady(page, 'core');
        await page.waitFor(() => navigator.serviceWorker.controller?.state === 'activated');
      });
      await assert.rejects(fetch(from), 'the server is gone');
      await page.open(`${from}?webgl=false&again=1#wind=200/30`);
      await isReady(page, 'core');
      assert.equal(await says(page, '#summary'), core.evaluate('wind=200/30').summary.replace(/\s+/g, ' '));
    },
  },
];
