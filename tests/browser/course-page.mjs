// A course's page around the lesson, in a browser, for the tests that use one.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('playwright-core').Frame} Frame */

export const STUB = fileURLToPath(new URL('course-stub.mjs', import.meta.url));
const RUNTIME = createRequire(import.meta.url).resolve('scorm-again/scorm12/min');
/** A code that the core takes. */
export const A_CODE = '2003Q';
/** Query of a check. */
export const CHECK = '?webgl=false&lms=1&mode=practice&check=1&set=mixed';

/**
 * A course's page around the lesson, on the server of the page that is open.
 * @param {Page} page
 * @param {string} script Of the course, a module; has `stub`.
 * @param {string} src Query of the lesson.
 * @returns {Promise<Frame>}
 */
export async function inCourse(page, script, src) {
  await page.route('**/course.html', (route) => route.fulfill({ contentType: 'text/html', body: `<!doctype html><title>Course</title>
<script src="scorm12.min.js"></script><script type="module">
import { strictCourse } from './course-stub.mjs';
${script}
document.body.insertAdjacentHTML('beforeend', '<iframe title="Lesson" width="1100" height="780" src="./${src}"></iframe>');
</script><body>` }));
  await page.route('**/course-stub.mjs', (route) => route.fulfill({ path: STUB, contentType: 'text/javascript' }));
  await page.route('**/scorm12.min.js', (route) => route.fulfill({ path: RUNTIME, contentType: 'text/javascript' }));
  await page.goto(new URL('course.html', page.url()).href);
  const frame = await (await page.waitForSelector('iframe')).contentFrame();
  assert.ok(frame);
  await frame.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  return frame;
}

/**
 * A strict course in the lesson's own window, where what looks at whole pages sees all of it.
 * @param {Page} page Not yet loaded.
 * @param {Record<string, string>} [values] @param {string[]} [fail] As of strictCourse().
 */
export async function courseInside(page, values = {}, fail = []) {
  const script = (await readFile(STUB, 'utf8')).replace('export function', 'function');
  await page.addInitScript(`(() => { ${script}
globalThis.stub = strictCourse(${JSON.stringify({ values, fail })}); globalThis.API = stub.api; })();`);
}

/** What the strict course has kept. @param {Page} page @returns {Promise<Record<string, string>>} */
export const kept = (page) => page.evaluate(() => /** @type {any} */ (globalThis).stub.kept());

/**
 * Waits until it has kept this: what is done is sent after it is shown.
 * @param {Page} page @param {string} element @param {string} pattern
 */
export const keeps = (page, element, pattern) => page.waitForFunction(([name, wanted]) =>
  new RegExp(wanted).test(/** @type {any} */ (globalThis).stub.kept()[name] ?? ''), [element, pattern])
  .catch(async () => assert.match((await kept(page))[element] ?? '', new RegExp(pattern), element));

/** What can be read as an answer to each kind of step, whatever it is worth. @type {Record<string, string>} */
export const ANY = { choice: 'direct', direction: '94', seconds: '1:10', correction: '7 left' };

/**
 * Answers the question of a check.
 * @param {Frame | Page} frame
 * @param {'right' | 'any'} what
 */
export async function give(frame, what) {
  await frame.waitForSelector('#practice-form .lesson-commit');
  const { kind, choices, right } = await frame.evaluate(() => {
    const tutor = /** @type {import('../../shell/types').Core} */ (globalThis.__lesson?.core).tutor();
    const { item, code, number } = tutor.state();
    if (!item || item.asked === null) throw new Error('nothing is asked');
    return { ...item.steps[item.asked], right: tutor.sheet({ code: code ?? '', count: 12 }).items[number - 1].right_text };
  });
  const answer = what === 'right' ? right : ANY[kind];
  if (kind === 'choice') {
    await frame.locator('#practice-form input[type=radio]').nth(choices.findIndex(({ value, label }) => value === answer || label === answer)).check();
  } else {
    const [number, side] = answer.replace(/[°,]/g, ' ').trim().split(/\s+/);
    await frame.locator('#practice-answer').fill(number);
    if (side) await frame.locator(`input[name=practice-side][value=${side}]`).check();
  }
  await frame.locator('.lesson-commit').click();
  await frame.waitForSelector('#practice-verdict');
}
