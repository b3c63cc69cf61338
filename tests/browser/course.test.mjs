// What a course is told: words and numbers as SCORM 1.2 has them, the talk with a strict course
// and with failing ones, where a course is looked for, and the package.
import assert from 'node:assert/strict';
import { readFile, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, test } from 'node:test';
import { PACKAGE, faultsOf, shelved, unzipped } from './course-files.mjs';
import { strictCourse } from './course-stub.mjs';
import { SITE } from './lesson.mjs';

/** @type {typeof import('../../shell/course-rules.js')} */
const rules = await shelved('course-rules.js');
/** @type {typeof import('../../shell/course.js')} */
const { createCourse } = await shelved('course.js');
/** @type {typeof import('../../shell/course-find.js')} */
const { findCourse } = await shelved('course-find.js');
/** @type {typeof import('../../shell/course-manifest.js')} */
const { manifestOf } = await shelved('course-manifest.js');
/** @type {typeof import('../../shell/course-package.js')} */
const { plainFiles } = await shelved('course-package.js');
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

  test('practice is done when every skill of the set is secure, and not before', () => {
    const skill = (/** @type {string} */ name, /** @type {string} */ status, in_set = true) => ({ skill: name, status, in_set });
    for (const [skills, want] of /** @type {[ReturnType<typeof skill>[], string][]} */ ([
      [[], 'incomplete'], [[skill('entry', 'secure'), skill('wind', 'learning')], 'incomplete'],
      [[skill('entry', 'secure'), skill('wind', 'kept')], 'completed'],
      [[skill('entry', 'secure'), skill('clearance', 'not-enough', false)], 'completed']])) {
      assert.equal(rules.practiceStatus(/** @type {any} */ ({ skills })), want);
    }
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
    const course = createCourse(() => stub.api, () => 0);
    assert.equal(course.open(), true);
    assert.equal(stub.kept()['cmi.core.lesson_status'], 'incomplete');
    assert.equal(stub.calls.filter((name) => name === 'LMSInitialize').length, 1);
    assert.deepEqual(stub.calls.filter((name) => /student_(id|name)/.test(name)), [], 'no name is read');
    assert.equal(course.waits(), false);
  });

  test('answers, a score, objectives and the end', () => {
    const stub = strictCourse({ values: { 'cmi.student_data.mastery_score': '80', 'cmi.core.score.raw': '50' } });
    let now = 100;
    const course = createCourse(() => stub.api, () => now);
    course.open();
    assert.equal(course.facts.mastery, 80);
    for (let n = 0; n < 3; n += 1) {
      course.answered({ ...answer, id: `a-${n}` });
      assert.equal(course.save(), true);
      assert.equal(stub.kept()[`cmi.interactions.${n}.result`], 'wrong');
    }
    course.checked(42);
    assert.equal(course.save(), true);
    assert.equal(stub.kept()['cmi.core.score.raw'], '50', 'the best stays');
    assert.equal(stub.kept()['cmi.core.lesson_status'], 'failed');
    course.checked(83);
    course.objectives([{ id: 'timing', raw: 67, done: true }]);
    course.suspend('{"v":1}');
    now = 165;
    assert.equal(course.finish({ ended: true }), true);
    const kept = stub.kept();
    assert.deepEqual([kept['cmi.core.score.raw'], kept['cmi.core.score.min'], kept['cmi.core.score.max'], kept['cmi.core.lesson_status']], ['83', '0', '100', 'passed']);
    assert.deepEqual([kept['cmi.core.session_time'], kept['cmi.core.exit'], kept['cmi.objectives.0.score.raw']], ['0000:01:05.00', '', '67']);
    assert.equal(stub.state(), 'finished');
    course.answered(answer);
    course.checked(100);
    course.suspend('later');
    assert.equal(course.finish({ ended: true }), true);
    assert.deepEqual([course.waits(), course.facts.best, course.status()], [false, 83, 'passed'], 'what comes later is not told');
    assert.equal(stub.calls.filter((name) => name === 'LMSFinish').length, 1);
    assert.equal(course.diagnosis().split('\n').length, 1, `nothing was refused: ${course.diagnosis()}`);
  });

  test('a later visit counts its answers on, and does not lower what was reached', () => {
    const stub = strictCourse({ values: { 'cmi.core.lesson_status': 'passed', 'cmi.suspend_data': 'x',
      'cmi.interactions.0.id': 'old' } });
    const course = createCourse(() => stub.api, () => 0);
    course.open();
    assert.equal(course.facts.resume, 'x');
    course.want('failed');
    course.answered(answer);
    course.save();
    course.finish({ ended: false });
    assert.equal(stub.kept()['cmi.core.lesson_status'], 'passed');
    assert.equal(stub.kept()['cmi.interactions.1.id'], answer.id);
    assert.equal(stub.kept()['cmi.core.exit'], 'suspend');
  });

  test('only to be looked at: nothing is written', () => {
    for (const mode of ['browse', 'review']) {
      const stub = strictCourse({ values: { 'cmi.core.lesson_mode': mode } });
      const course = createCourse(() => stub.api, () => 0);
      assert.equal(course.open(), false);
      course.want('passed');
      course.answered(answer);
      course.save();
      course.finish({ ended: true });
      assert.deepEqual(stub.calls.filter((name) => /^LMS(SetValue|Commit)/.test(name)), []);
    }
  });

  for (const how of ['LMSInitialize', 'throw:LMSInitialize', 'LMSCommit', 'throw:LMSCommit', 'LMSSetValue', 'throw:LMSSetValue']) {
    test(`${how} fails, and is made up for`, () => {
      const stub = strictCourse({ fail: [how] });
      const course = createCourse(() => stub.api, () => 0);
      course.open();
      course.checked(75);
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

  test('answers wait with the rest where nothing is taken, and come in order', () => {
    const stub = strictCourse();
    const course = createCourse(() => stub.api, () => 0);
    course.open();
    stub.fail('LMSSetValue', true);
    for (let n = 0; n < 3; n += 1) {
      course.answered({ ...answer, id: `a-${n}` });
      course.suspend(`{"n":${n}}`);
      assert.equal(course.save(), false);
    }
    stub.fail('LMSSetValue', false);
    assert.equal(course.save(), true);
    assert.deepEqual([0, 1, 2].map((n) => stub.kept()[`cmi.interactions.${n}.id`]), ['a-0', 'a-1', 'a-2']);
    assert.equal(stub.kept()['cmi.suspend_data'], '{"n":2}');
  });

  test('a course that is found late gets all, by its own pass mark, and loses nothing that it had', () => {
    for (const [mark, had, status, want] of /** @type {[string, string, string, string[]][]} */ ([['80', '', 'not attempted', ['75', 'failed']], ['80', '90', 'passed', ['90', 'passed']],
      ['60', '', 'incomplete', ['75', 'passed']], ['', '', 'not attempted', ['75', 'completed']]])) {
      const stub = strictCourse({ values: { 'cmi.student_data.mastery_score': mark, 'cmi.core.score.raw': had, 'cmi.core.lesson_status': status } });
      let is_there = false;
      const course = createCourse(() => (is_there ? stub.api : null), () => 0);
      assert.equal(course.open(), false);
      course.answered(answer);
      course.checked(75);
      assert.deepEqual([course.save(), course.found(), course.waits()], [false, false, true]);
      is_there = true;
      assert.deepEqual([course.save(), course.found(), course.waits()], [true, true, false]);
      assert.deepEqual([stub.kept()['cmi.core.score.raw'], stub.kept()['cmi.core.lesson_status']], want);
      assert.equal(stub.kept()['cmi.interactions.0.id'], answer.id);
    }
  });

  test('a course that cannot be read is not written over', () => {
    const stub = strictCourse({ values: { 'cmi.suspend_data': 'mine' }, fail: ['throw:LMSGetValue'] });
    const course = createCourse(() => stub.api, () => 0);
    course.suspend('other');
    assert.equal(course.save(), false);
    assert.deepEqual(stub.calls.filter((name) => /^LMS(SetValue|Commit)/.test(name)), []);
    stub.fail('throw:LMSGetValue', false);
    assert.equal(course.open(), true);
    assert.equal(course.facts.resume, 'mine');
    assert.equal(stub.calls.filter((name) => name === 'LMSInitialize').length, 1);
  });

  test('the end that is not taken is no end, unless the page goes', () => {
    for (const how of ['LMSCommit', 'LMSFinish', 'throw:LMSFinish', 'shut:LMSFinish']) {
      const stub = strictCourse();
      const course = createCourse(() => stub.api, () => 0);
      course.open();
      course.suspend('{}');
      stub.fail(how, true);
      assert.equal(course.finish({ ended: true }), false);
      assert.deepEqual([course.state(), course.ending(), course.waits(), stub.state()], ['open', true, true, how === 'shut:LMSFinish' ? 'closed' : 'open'], how);
      stub.fail(how, false);
      assert.equal(course.finish({ ended: true }), true);
      assert.deepEqual([course.state(), course.waits(), stub.state()], ['finished', false, 'finished'], how);
    }
    const stub = strictCourse();
    const course = createCourse(() => stub.api, () => 0);
    course.open();
    stub.fail('LMSSetValue', true);
    assert.equal(course.finish({ ended: false, last: true }), false);
    assert.deepEqual([stub.state(), course.waits()], ['finished', true], 'what was lost is not said to be saved');
  });

  test('a course that keeps no answers loses none of the rest', () => {
    const stub = strictCourse();
    const refuse = stub.api.LMSSetValue;
    stub.api.LMSSetValue = (key, value) => (key.startsWith('cmi.interactions') || key.startsWith('cmi.objectives') ? 'false' : refuse(key, value));
    const course = createCourse(() => stub.api, () => 0);
    course.open();
    course.answered(answer);
    course.objectives([{ id: 'timing', raw: 67, done: true }]);
    course.checked(75);
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

describe('the package', async () => {
  const zip = await readFile(PACKAGE);
  const files = unzipped(zip);
  const manifest = String(files.get('imsmanifest.xml'));

  test('has every file of the site, and its manifest names just these', async () => {
    const site = (await readdir(SITE, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(SITE.length + 1));
    const here = [...files.keys()].filter((name) => name !== 'imsmanifest.xml');
    const plain = (/** @type {string} */ name) => name.replace(/\.mjs$/, '-mjs.js');
    const wanted = site.filter((name) => !['service-worker.js', 'files.json', 'contents.spdx.json'].includes(name));
    assert.deepEqual(here, wanted.map(plain).sort());
    assert.ok(['core-mjs.js', 'qrcode-mjs.js', 'study-mjs.js', 'view-mjs.js', 'core.wasm', 'core-more.wasm', 'study.wasm'].every((name) => here.includes(name)));
    assert.deepEqual([...manifest.matchAll(/<file href="([^"]+)"/g)].map(([, name]) => name), here);
    for (const name of wanted) {
      const bytes = await readFile(join(SITE, name));
      const made = files.get(plain(name)) ?? Buffer.of();
      // Where the two differ it is in the names of modules alone.
      if (!bytes.equals(made)) assert.equal(String(made).replace(/\b(core|qrcode|study|view)-mjs\.js/g, '$1.mjs'), String(bytes), name);
    }
  });

  test('has no .mjs, and names none', () => {
    for (const [name, bytes] of files) {
      assert.doesNotMatch(name, /\.mjs/);
      if (!/\.(html|js|css|xml|json|webmanifest|svg)$/.test(name)) continue;
      assert.doesNotMatch(String(bytes), /(?:\bfrom|\bimport\(?|=|\()\s*['"`][^'"`\s<>]*\.mjs/, name);
    }
    const main = String(files.get('main.js'));
    for (const [name, want] of [['index.html', 'href="core-mjs.js"'], ['main.js', 'import("./core-mjs.js")'], ['main.js', 'import("./view-mjs.js")']]) assert.ok(String(files.get(name)).includes(want), `${name}: ${want}`);
    assert.ok([...files].some(([name, bytes]) => name.endsWith('.js') && String(bytes).includes('from"./qrcode-mjs.js"')));
    // Parts that come later are named as they are.
    const later = [...main.matchAll(/import\("\.\/([\w-]+\.js)"\)/g)].map(([, name]) => name);
    assert.ok(later.length > 12 && later.every((name) => files.has(name)), later.join(' '));
  });

  test('a reference to an .mjs that cannot be changed stops it', () => {
    const page = (/** @type {string} */ text, more = {}) => plainFiles(new Map(Object.entries({ 'a.js': text, 'core.mjs': '', ...more })
      .map(([name, content]) => [name, new TextEncoder().encode(content)])));
    assert.equal(new TextDecoder().decode(page("import('./core.mjs'); new URL(`core.mjs`, x); // of core.mjs\n").get('a.js')),
      "import('./core-mjs.js'); new URL(`core-mjs.js`, x); // of core.mjs\n");
    for (const text of ["import './other.mjs'", "import('../core.mjs')", "fetch('core.mjs?v=2')", '`${base}/core.mjs`', "name + '.mjs'", '<link href=core.mjs>',
      '"<link href=\\"core.mjs\\">"']) assert.throws(() => page(text), /a\.js still names/, text);
    assert.throws(() => page('', { 'core-mjs.js': '' }), /is there already/);
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
    assert.match(manifestOf({ title: 'C', goal: 'practice', set: 'a', code: 'B' }, []), /parameters="\?lms=practice&amp;lms-set=a&amp;lms-code=B&amp;mode=practice&amp;set=a&amp;code=B"/);
  });

  test('its identifier is the same for the same choices, and another for others', () => {
    const named = (/** @type {import('../../shell/course-manifest.js').Package} */ wanted) => /<manifest identifier="([^"]+)"/.exec(manifestOf(wanted, []))?.[1] ?? '';
    const check = /** @type {const} */ ({ title: 'C', goal: 'check', set: 'mixed', code: '2003Q', mastery: 80 });
    const ids = [check, { ...check, code: '' }, { ...check, mastery: 70 }, { ...check, mastery: null }, { ...check, set: 'left-turns' },
      /** @type {const} */ ({ ...check, goal: 'practice' }), /** @type {const} */ ({ ...check, goal: 'lesson' })].map(named);
    assert.equal(new Set(ids).size, ids.length, ids.join(' '));
    for (const id of ids) assert.match(id, /^[A-Za-z_][\w.-]*$/);
    assert.equal(named({ ...check, title: 'D' }), ids[0]);
    assert.equal(named({ title: 'L', goal: 'lesson', set: 'mixed', mastery: 50 }), ids.at(-1), 'what a lesson does not use makes no difference');
    assert.equal(named({ title: 'C', goal: 'check', set: 'mixed', mastery: 80 }), ids[1], 'no code is as an empty one');
    assert.ok(manifest.includes(`"${ids[1]}"`), 'the package of the build');
  });

  test('zip: the order of the files makes no difference, and the checksum is the known one', () => {
    // Check value of CRC-32 for "123456789": cbf43926 (common to its published descriptions; from memory).
    assert.equal(crc32(new TextEncoder().encode('123456789')), 0xcbf43926);
    const [a, b] = [new Uint8Array([1]), new Uint8Array([2, 3])];
    assert.deepEqual(zipOf(new Map([['b', b], ['a/ä', a]])), zipOf(new Map([['a/ä', a], ['b', b]])));
    assert.deepEqual([...unzipped(Buffer.from(zipOf(new Map([['b', b], ['a/ä', a]])))).keys()], ['a/ä', 'b']);
  });
});
