// The mode "Teach": the package that an instructor makes in the page, up to the result in a course.
import assert from 'node:assert/strict';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { serve } from '../../web/serve.mjs';
import { axeFindsNothing, fitsAt } from './access.mjs';
import { PACKAGE, faultsOf, unzipped } from './course-files.mjs';
import { give, inCourse } from './course-page.mjs';
import { lessons, text } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */

const lesson = await lessons();
const AT = '?webgl=false#mode=teach';

/** Presses the button; the package that comes. @param {Page} page @returns {Promise<Buffer>} */
async function made(page) {
  const [file] = await Promise.all([page.waitForEvent('download'), page.locator('#teach-make').click()]);
  return readFile(/** @type {string} */ (await file.path()));
}

/** @param {Page} page @param {RegExp} words */
const saysProblem = (page, words) => page.waitForFunction((source) =>
  new RegExp(source).test(document.getElementById('teach-problem')?.textContent ?? ''), words.source);

lesson.test('an instructor makes a package in the page: that of the build where the choices are the same', { at: AT }, async (page) => {
  await page.locator('#teach-mark').fill('0');
  await page.locator('#teach-make').click();
  await saysProblem(page, /pass mark is 0; allowed is 1 to 100/);
  await axeFindsNothing(page, 'teach, with a problem');
  await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
  await page.locator('#teach-mark').fill('80');
  await page.locator('#teach-code').fill('12345');
  await page.locator('#teach-make').click();
  await saysProblem(page, /12345/);
  await page.locator('#teach-code').fill('');
  assert.ok((await made(page)).equals(await readFile(PACKAGE)), 'the same bytes');
  await page.locator('#teach-title').fill('Week 3');
  await page.locator('#teach-set').selectOption('left-turns');
  await page.locator('#teach-new-code').click();
  const code = await page.locator('#teach-code').inputValue();
  await page.locator('input[name=teach-goal][value=practice]').check();
  assert.equal(await page.locator('#teach-mark').isVisible(), false);
  const manifest = String(unzipped(await made(page)).get('imsmanifest.xml'));
  assert.equal(await faultsOf(manifest), '');
  assert.match(manifest, new RegExp(`mode=practice&amp;set=left-turns&amp;code=${code}"`));
  assert.match(manifest, /<title>Week 3</);
  await page.waitForFunction(() => /Upload it/.test(document.getElementById('teach-said')?.textContent ?? ''));
  await page.locator('details:has(#teach-file) summary').click();
  await axeFindsNothing(page, 'teach, with a package made');
  await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
  await fitsAt(page, [320, 768, 1440]);
});

lesson.test('a package with a set of the instructor’s own, unpacked in a course, to a passed check', { at: AT, mayComplain: true }, async (page) => {
  // The example that instructors are given.
  const example = /```json\n([\s\S]*?)```/.exec(await readFile(new URL('../../docs/authoring.md', import.meta.url), 'utf8'))?.[1] ?? '';
  const { id } = JSON.parse(example);
  /** @param {string} content */
  const gives = async (content) => {
    await page.locator('#teach-file').setInputFiles({ name: 'mine.json', mimeType: 'application/json', buffer: Buffer.from(content) });
    await page.waitForFunction(() => /** @type {HTMLInputElement} */ (document.getElementById('teach-file')).value === '');
  };
  await page.locator('details:has(#teach-file) summary').click();
  await gives('{');
  assert.equal(await page.locator('#teach-file-problems li').count(), 1);
  assert.equal(await page.locator('#teach-set').inputValue(), 'mixed');
  await gives(example);
  assert.equal(await page.locator('#teach-file-problems li').count(), 0);
  assert.equal(await page.locator('#teach-set').inputValue(), `set-${id}.json`);
  await page.locator('#teach-new-code').click();
  const files = unzipped(await made(page));
  const manifest = String(files.get('imsmanifest.xml'));
  assert.equal(String(files.get(`set-${id}.json`)), example);
  assert.deepEqual([...manifest.matchAll(/<file href="([^"]+)"/g)].map(([, name]) => name), [...files.keys()].filter((name) => name !== 'imsmanifest.xml'));

  const folder = await mkdtemp(join(tmpdir(), 'unpacked-'));
  for (const [name, bytes] of files) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), bytes);
  }
  const course = await serve(folder);
  try {
    // A plain folder opens too, and says that no course is there.
    const parameters = (/ parameters="([^"]+)"/.exec(manifest)?.[1] ?? '').replaceAll('&amp;', '&');
    await page.goto(`${course.url}${parameters}&webgl=false`);
    await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
    assert.match(await text(page, '#course-said'), /none was found/);

    const mark = /masteryscore>(\d+)</.exec(manifest)?.[1];
    const frame = await inCourse(page, `globalThis.API = new Scorm12API({ autocommit: false, logLevel: 5 }); API.cmi.student_data.mastery_score = "${mark}";`,
      `${parameters}&webgl=false`);
    await frame.locator('#practice-check').click();
    for (let n = 0; n < 12; n += 1) {
      await give(frame, 'right');
      await frame.locator('#practice-next').click();
    }
    await frame.locator('#course-finish').click();
    await frame.waitForFunction(() => /Saved in your course/.test(document.getElementById('course-said')?.textContent ?? ''));
    assert.deepEqual(await page.evaluate(() => {
      const { core, interactions, suspend_data } = /** @type {any} */ (globalThis).API.cmi;
      return [core.lesson_status, core.score.raw, interactions.childArray.length, suspend_data.length > 100];
    }), ['passed', '100', 12, true]);
    assert.match(await text(/** @type {any} */ (frame), '#practice-set-about'), new RegExp(JSON.parse(example).title));
  } finally {
    await course.close();
    await rm(folder, { recursive: true });
  }
});
