// The page inside a course, a strict stand-in; a real run-time is in teach.test.mjs.
import assert from 'node:assert/strict';
import { axeFindsNothing, fitsAt, violations } from './access.mjs';
import { ANY, A_CODE, CHECK, courseInside, give, inCourse, keeps, kept } from './course-page.mjs';
import { coreInNode, drawn, lessons, text } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('playwright-core').Frame} Frame */

const lesson = await lessons();

/** What a course has kept of a check that was left after so many answers. @param {number} answers */
async function begun(answers) {
  const tutor = (await coreInNode()).tutor();
  let { item } = tutor.begin({ mode: 'check', code: A_CODE });
  for (let n = 0; n < answers; n += 1) {
    if (n) ({ item } = tutor.next());
    tutor.answer(ANY[item?.steps[item.asked ?? 0].kind ?? '']);
  }
  return JSON.stringify({ v: 1, lesson: ['x'], progress: JSON.parse(tutor.progress()) });
}
const BEGUN = await begun(1);

/** @param {Frame} frame @param {number} n */
const isAt = (frame, n) => frame.waitForFunction((words) => document.getElementById('practice-head')?.textContent?.includes(words), `question ${n} of 12`);

lesson.test('a check in a course: saved after every answer, scored at the last, taken up again', { at: '?webgl=false' }, async (page) => {
  const code = A_CODE;
  const script = (/** @type {Record<string, string>} */ values) => `globalThis.stub = strictCourse({ values: ${JSON.stringify(values)} }); globalThis.API = stub.api;`;
  let frame = await inCourse(page, script({ 'cmi.student_data.mastery_score': '60' }), `${CHECK}&code=${code}`);
  assert.match(await frame.locator('#course-said').innerText(), /Connected to your course/);
  assert.equal(await frame.locator('#practice-code').isDisabled(), true);
  assert.equal(await frame.locator('#practice-set').isDisabled(), true);
  assert.equal(await frame.locator('#practice-code').inputValue(), code);
  assert.equal((await kept(page))['cmi.core.lesson_status'], 'incomplete');
  await frame.locator('#practice-check').click();
  for (let n = 0; n < 2; n += 1) {
    await give(frame, 'any');
    await keeps(page, `cmi.interactions.${n}.result`, '^(correct|wrong)$');
    const now = await kept(page);
    assert.equal(now[`cmi.interactions.${n}.id`], `mixed-1-${code}-${n + 1}`);
    assert.match(now[`cmi.interactions.${n}.result`], /^(correct|wrong)$/);
    assert.ok(now['cmi.suspend_data'].length > 100 && now['cmi.suspend_data'].length <= 4096);
    await frame.locator('#practice-next').click();
  }
  // Closed without a word.
  await page.evaluate(() => document.querySelector('iframe')?.remove());
  const before = await kept(page);
  assert.deepEqual([before['cmi.core.exit'], before['cmi.core.lesson_status']], ['suspend', 'incomplete']);
  assert.equal(await page.evaluate(() => /** @type {any} */ (globalThis).stub.calls.filter((/** @type {string} */ call) => call === 'LMSFinish').length), 1);
  const { progress } = JSON.parse(before['cmi.suspend_data']);
  assert.deepEqual([progress.open_check.code, progress.open_check.right.length], [code, 2]);
  // Opened again, after ten answers: on with question 11.
  await page.unroute('**/course.html');
  frame = await inCourse(page, script({ ...before, 'cmi.suspend_data': await begun(10) }), `${CHECK}&code=${code}`);
  await frame.locator('#practice-check').click();
  for (const n of [11, 12]) {
    await isAt(frame, n);
    await give(frame, 'any');
    if (n < 12) await frame.locator('#practice-next').click();
  }
  // The window may close before the result is looked at.
  await keeps(page, 'cmi.core.lesson_status', '^(passed|failed)$');
  const done = await kept(page);
  const score = await frame.evaluate(() => /** @type {any} */ (globalThis).__lesson.core.tutor().state().result.score);
  assert.equal(done['cmi.core.score.raw'], String(score));
  assert.equal(done['cmi.core.lesson_status'], score >= 60 ? 'passed' : 'failed');
  assert.equal(done['cmi.interactions.3.id'], `mixed-1-${code}-12`);
  assert.equal(done['cmi.objectives.3.id'] !== undefined, true);
  await frame.locator('#practice-next').click();
  assert.match(await frame.locator('#mode-practice .course-here').innerText(), new RegExp(`best result, ${score} of 100: ${score >= 60 ? 'passed' : 'below'}`));
  await frame.locator('#course-finish').click();
  assert.match(await frame.locator('#course-said').innerText(), /Saved in your course/);
  assert.equal(await page.evaluate(() => /** @type {any} */ (globalThis).stub.state()), 'finished');
  const refused = await page.evaluate(() => /** @type {any} */ (globalThis).stub.calls.filter((/** @type {string} */ call) => call.startsWith('LMSGetLastError')));
  assert.deepEqual(refused, [], 'nothing was refused');
  assert.equal(await frame.evaluate(() => localStorage.length), 0, 'the device keeps nothing');
});

/** From now on the course refuses this, or no longer. @param {Page} page @param {string} call @param {boolean} on */
const fails = (page, call, on) => page.evaluate(([name, is_on]) => /** @type {any} */ (globalThis).stub.fail(name, is_on), /** @type {const} */ ([call, on]));

lesson.test('what the course does not take is said, and sent again; the end too', {
  at: CHECK, ready: 'core', before: (page) => courseInside(page),
}, async (page) => {
  const strip = page.locator('#course-said');
  const here = page.locator('#mode-practice .course-here');
  assert.match(await strip.innerText(), /Connected to your course/);
  assert.equal(await here.isVisible(), false);
  assert.match(await text(page, '#practice-asked'), /^Your course asks for the check/);
  assert.match(await text(page, '#practice-fixed'), /Any code will do/);
  assert.deepEqual(await violations(page), []);
  await fails(page, 'LMSCommit', true);
  await page.locator('#practice-check').click();
  await give(page, 'any');
  assert.match(await strip.innerText(), /did not accept/);
  // The strip may be out of view: beside the answer it is said too.
  assert.match(await here.innerText(), /does not have the last of it yet/);
  await page.locator('#course-why summary').click();
  assert.match(await page.locator('#course-diagnosis').inputValue(), /waiting: LMSCommit\nLMSCommit → false \(error 101/);
  await axeFindsNothing(page, 'a failure, with its diagnosis');
  await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
  await fitsAt(page, [320, 768, 1440]);
  await fails(page, 'LMSCommit', false);
  await here.locator('button').click();
  assert.match(await strip.innerText(), /Connected to your course/);
  assert.match(await here.innerText(), /has all that you have done/);
  assert.equal(await page.evaluate(() => Boolean(document.activeElement?.closest('.course-here'))), true, 'the focus is not lost');
  assert.match((await kept(page))['cmi.interactions.0.result'], /correct|wrong/);
  // Nor is an end that the course refuses said to be one.
  await fails(page, 'LMSFinish', true);
  await page.locator('#course-finish').click();
  assert.match(await strip.innerText(), /did not accept/);
  await fails(page, 'LMSFinish', false);
  await page.locator('#course-retry').click();
  assert.match(await strip.innerText(), /Saved in your course/);
  assert.equal(await page.evaluate(() => document.activeElement?.id), 'course-said', 'the focus is not lost');
  // What comes later is not told, and not said to be.
  await page.locator('#practice-next').click();
  await give(page, 'any');
  assert.match(await strip.innerText(), /from here on is not recorded/);
  assert.match(await here.innerText(), /nothing after it/);
  assert.equal((await kept(page))['cmi.interactions.1.id'], undefined);
});

lesson.test('a course that opens late gives its progress, and keeps it from then on', {
  at: CHECK, ready: 'core', before: (page) => courseInside(page, { 'cmi.suspend_data': BEGUN }, ['LMSInitialize']),
}, async (page) => {
  assert.match(await text(page, '#course-said'), /did not accept/);
  assert.match(await text(page, '#practice-kept'), /on this device|keeps nothing/);
  await fails(page, 'LMSInitialize', false);
  // The next thing that is done opens it.
  await page.locator('#to-lesson').click();
  await page.locator('#lesson-show').click();
  await page.waitForFunction(() => /Connected/.test(document.getElementById('course-said')?.textContent ?? ''));
  const { lesson: steps, progress } = JSON.parse((await kept(page))['cmi.suspend_data']);
  assert.deepEqual([steps[0], steps.length, progress.open_check?.code], ['x', 2, A_CODE], 'nothing that it kept is written over');
  await page.locator('#to-practice').click();
  assert.match(await text(page, '#practice-kept'), /kept by your course/);
  assert.equal(await page.locator('#practice-code').inputValue(), A_CODE, 'the check that waits goes on');
});

lesson.test('loaded again anywhere, the page is asked for the same, and the key is not at hand', {
  at: `?webgl=false&lms=check&lms-set=left-turns&lms-code=${A_CODE}&mode=practice&check=1&set=left-turns&code=${A_CODE}`, ready: 'core',
  before: (page) => courseInside(page),
}, async (page) => {
  for (const gone of ['.practice-paper', '.practice-import', '#practice-as-text']) assert.equal(await page.locator(gone).isVisible(), false, gone);
  // From a package that nobody has touched the row of modes leads away.
  await page.locator('#to-explore').click();
  await page.waitForFunction(() => document.body.dataset.mode === 'explore');
  await page.reload();
  await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  await page.evaluate(() => { location.hash = 'mode=practice&set=mixed&code=00014'; });
  await page.waitForFunction(() => document.body.dataset.mode === 'practice');
  assert.deepEqual(await page.evaluate(() => ['practice-set', 'practice-code'].map((id) => {
    const field = /** @type {HTMLInputElement} */ (document.getElementById(id));
    return [field.value, field.disabled];
  })), [['left-turns', true], [A_CODE, true]]);
  assert.match(await text(page, '#practice-asked'), /^Your course asks for the check/);
  await page.locator('#practice-check').click();
  await fails(page, 'LMSCommit', true);
  await give(page, 'any');
  assert.equal((await kept(page))['cmi.interactions.0.id'], undefined);
  // Put out of sight, it tries once more.
  await fails(page, 'LMSCommit', false);
  await page.evaluate(() => {
    Object.defineProperty(document, 'hidden', { value: true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  assert.equal((await kept(page))['cmi.interactions.0.id'], `left-turns-1-${A_CODE}-1`);
});

lesson.test('only to be looked at, nothing is recorded, and that is said', {
  at: CHECK, ready: 'core', before: (page) => courseInside(page, { 'cmi.core.lesson_mode': 'review', 'cmi.suspend_data': BEGUN }),
}, async (page) => {
  assert.match(await text(page, '#course-said'), /Nothing is recorded/);
  // What waits is taken up, though the package names no code.
  assert.equal(await page.locator('#practice-code').inputValue(), A_CODE);
  await page.locator('#practice-check').click();
  await isAt(page.mainFrame(), 2);
  await give(page, 'any');
  assert.match(await text(page, '#mode-practice .course-here'), /Nothing of this is recorded/);
  assert.equal(await page.evaluate(() => /** @type {any} */ (globalThis).stub.calls.filter((/** @type {string} */ call) => /Set|Commit/.test(call)).length), 0);
  assert.deepEqual(await violations(page), []);
});

lesson.test('without a course there is no strip; where one was to be, it says what is missing', { at: '?webgl=false#mode=practice' }, async (page) => {
  assert.equal(await page.locator('#course').isVisible(), false);
  assert.match(await text(page, '#practice-kept'), /Not connected to a course/);
  await page.goto(`${lesson.url}${CHECK}`);
  await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  await drawn(page);
  assert.match(await text(page, '#course-said'), /none was found/);
  await page.locator('#course-why summary').click();
  assert.deepEqual(await violations(page), []);
});

lesson.test('the lesson in a course is done when every step was flown, and its steps come back', { at: '?webgl=false' }, async (page) => {
  const script = (/** @type {Record<string, string>} */ values) => `globalThis.stub = strictCourse({ values: ${JSON.stringify(values)} }); globalThis.API = stub.api;`;
  let frame = await inCourse(page, script({}), '?webgl=false&lms=1&mode=lesson');
  const steps = await frame.locator('#lesson-row a').count();
  for (let n = 0; n < steps; n += 1) {
    if (n === 3) {
      await keeps(page, 'cmi.suspend_data', '"lesson":\\[[^,\\]]+,[^,\\]]+,[^,\\]]+\\]');
      assert.equal((await kept(page))['cmi.core.lesson_status'], 'incomplete');
      const before = await kept(page);
      await page.unroute('**/course.html');
      frame = await inCourse(page, script(before), '?webgl=false&lms=1&mode=lesson');
      assert.equal(await frame.locator('#lesson-row a.been').count(), 3);
    }
    await frame.locator('#lesson-row a').nth(n).click();
    await frame.locator('#lesson-show').click();
    await frame.waitForSelector('#lesson-said');
  }
  await keeps(page, 'cmi.core.lesson_status', '^completed$');
  const done = await kept(page);
  assert.deepEqual([done['cmi.core.lesson_status'], done['cmi.core.score.raw']], ['completed', ''], 'a lesson has no score');
  assert.match(await frame.locator('#mode-lesson .course-here').innerText(), /has all that you have done/);
});
