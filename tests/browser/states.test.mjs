// Every state of the page (states.mjs): what assistive technology is given, axe in light and
// dark, and that all fits a window of 320 by 256 CSS pixels, with wider text spacing too.
//   TREES=write node --test tests/browser/states.test.mjs   writes trees/ anew
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { axeFaults, misfits, spacedOut } from './access.mjs';
import { PATIENCE_MS, SITE, drawn, lessons } from './lesson.mjs';
import { WALKS } from './states.mjs';
import { tree } from './tree.mjs';

const lesson = await lessons({ gl: false });

/** 1280 by 1024 at 400 %. */
const SMALL = { width: 320, height: 256 };

/** @typedef {import('./lesson.mjs').Page} Page */

/** Name of the build. */
const BUILD = /'(\w+)'/.exec(readFileSync(join(SITE, 'build.js'), 'utf8'))?.[1] ?? '';
assert.match(BUILD, /^[0-9a-f]{8}$/);

/** How long a tree may take to be as it is kept: Chromium builds it bit by bit, after the page. */
const SETTLES_MS = 8000;

/** Where the tree differs from the one that is kept, once it has had time. @param {Page} page @param {string} name */
async function treeFaults(page, name) {
  for (const until = Date.now() + SETTLES_MS; ;) {
    const faults = await treeFaultsNow(page, name);
    if (faults.length === 0 || Date.now() > until) return faults;
    await drawn(page);
  }
}

/** The tree as it is kept, or as it is now. @param {Page} page @param {string} name */
async function treeFaultsNow(page, name) {
  const file = new URL(`trees/${name}.txt`, import.meta.url);
  const now = (await tree(page)).replaceAll(new URL(page.url()).origin, 'http://here')
    // Every change of the page changes these: its build's name, and the size of a package.
    .replaceAll(BUILD, 'this-build').replace(/\d+ kB/, 'so many kB');
  if (process.env.TREES === 'write') await writeFile(file, now);
  const kept = (await readFile(file, 'utf8').catch(() => '')).split('\n');
  const is = now.split('\n');
  const at = is.findIndex((line, i) => line !== kept[i]);
  if (at < 0 && is.length === kept.length) return [];
  return [`trees/${name}.txt, line ${at + 1}, is “${is[at]?.trim()}”, was “${kept[at]?.trim()}”`];
}

/** @param {Page} page */
async function smallFaults(page) {
  const { width, height } = /** @type {{width: number, height: number}} */ (page.viewportSize());
  await page.setViewportSize(SMALL);
  await drawn(page);
  const plain = await misfits(page);
  await spacedOut(page, true);
  await drawn(page);
  const spaced = await misfits(page);
  await spacedOut(page, false);
  await page.setViewportSize({ width, height });
  await drawn(page);
  return [...plain.map((fault) => `small: ${fault}`), ...spaced.map((fault) => `small, spaced: ${fault}`)];
}

for (const { name, at, ready, mayComplain, before, states } of WALKS) {
  lesson.test(`${name}: heard, seen and fitting in every state`,
    { at, ready, mayComplain, before, reducedMotion: 'reduce', patience_ms: 20 * PATIENCE_MS }, async (page) => {
      /** @type {string[]} */
      const faults = [];
      for (const state of states) {
        await state.come?.(page);
        await drawn(page);
        const found = [...await treeFaults(page, state.name), ...await axeFaults(page), ...await smallFaults(page)];
        faults.push(...found.map((fault) => `${state.name}: ${fault}`));
      }
      assert.deepEqual(faults, []);
    });
}
