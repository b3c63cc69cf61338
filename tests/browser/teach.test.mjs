// The mode "Teach": the package that an instructor makes in the page, up to the result in a course.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { axeFindsNothing, fitsAt } from './access.mjs';
import { PACKAGE, faultsOf, parametersIn, unpacked, unzipped } from './course-files.mjs';
import { courseInside, give, inCourse } from './course-page.mjs';
import { isReady, lessons, text } from './lesson.mjs';

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

  await unpacked(files, async (url) => {
    // A plain folder opens too, and says that no course is there.
    const parameters = parametersIn(manifest);
    await page.goto(`${url}${parameters}&webgl=false`);
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
  });
});

lesson.test('a package on a server that knows few types, to a first answered question', { at: AT }, async (page) => {
  const files = unzipped(await readFile(PACKAGE));
  // To show that the server is one that the site's own names would not do for.
  files.set('refused.mjs', Buffer.from('export default 1;'));
  /** @type {string[]} */
  const asked = [];
  await unpacked(files, async (url) => {
    const course = await page.context().newPage();
    course.on('request', (request) => asked.push(request.url()));
    /** @type {string[]} */
    const faults = [];
    course.on('pageerror', (error) => faults.push(String(error)));
    course.on('response', (answer) => answer.status() !== 200 && faults.push(`${answer.url()}: ${answer.status()}`));
    await courseInside(course);
    await course.goto(`${url}${parametersIn(String(files.get('imsmanifest.xml')))}`);
    await isReady(course, 'view'); // the painter's module is there too
    assert.equal((await course.request.get(`${url}core.wasm`)).headers()['content-type'], 'application/octet-stream');
    await course.locator('#practice-check').click();
    await give(course, 'right');
    await course.waitForFunction(() => /** @type {any} */ (globalThis).stub.kept()['cmi.interactions.0.result'] === 'correct');
    assert.ok(asked.includes(`${url}view-mjs.js`));
    assert.deepEqual(asked.filter((address) => /\.mjs\b/.test(address)), []);
    assert.deepEqual(faults, []);
    assert.match(await course.evaluate(() => import(/** @type {any} */ ('./refused.mjs')).then(String, String)), /TypeError/);
    await course.close();
  }, Object.fromEntries(Object.entries({ html: 'text/html', css: 'text/css', js: 'text/javascript', json: 'application/json', png: 'image/png',
    svg: 'image/svg+xml', woff2: 'font/woff2' }).map(([end, type]) => [`.${end}`, type])));
});
