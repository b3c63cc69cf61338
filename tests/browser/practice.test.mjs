// The mode "Practice": practice and check walked by keyboard and by touch, what counts, progress
// kept, exported, read and cleared, sets from files, and nothing told before it is answered.
import assert from 'node:assert/strict';
import { writeFileSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WIDTHS, fitsAt, tooSmall } from './access.mjs';
import { drawn, lessons, text } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../shell/types').TutorState} TutorState */

const AT = '?webgl=false#mode=practice';
const PHONE = { width: 390, height: 844 };

/** @param {Page} page @returns {Promise<TutorState>} */
const state = (page) => page.evaluate(() => {
  const lesson = globalThis.__lesson;
  if (!lesson) throw new Error('no lesson');
  return lesson.core.tutor().state();
});

/** The step asked now. @param {Page} page */
async function asked(page) {
  const { item } = await state(page);
  assert.ok(item && item.asked !== null);
  return item.steps[item.asked];
}

/**
 * What to give for an answer that can be read, whatever it is worth.
 * @param {import('../../shell/types').TutorStep} step
 */
const anyAnswer = ({ kind }) => (kind === 'choice' ? 'direct' : kind === 'seconds' ? '1:10' : kind === 'correction' || kind === 'hold' ? '7 left' : '94');

/**
 * Fills the form in; `how` fills and presses. A right value can be given as it is written.
 * @param {Page} page @param {string} answer
 */
async function fill(page, answer) {
  const { kind } = await asked(page);
  if (kind === 'choice') {
    const { choices } = await asked(page);
    const place = choices.findIndex(({ value, label }) => value === answer || label === answer);
    await page.locator('#practice-form input[type=radio]').nth(place).check();
    return;
  }
  const [number, side] = answer.replace(/[°,]| kt/g, ' ').trim().split(/\s+/);
  await page.locator('#practice-answer').fill(number);
  if (side) await page.locator(`input[name=practice-side][value=${side}]`).check();
}

/** Begins with a code of its own. @param {Page} page @param {'go' | 'check'} how @param {number} [seed] */
async function begin(page, how, seed = 5) {
  const code = await page.evaluate((n) => globalThis.__lesson?.core.tutor().newCode(n) ?? '', seed);
  await page.locator('#practice-code').fill(code);
  await page.locator(`#practice-${how}`).click();
  await drawn(page);
}

lesson.test('a whole check by keyboard, with its result', { at: AT }, async (page) => {
  await begin(page, 'check');
  for (let n = 1; n <= 12; n += 1) {
    assert.match(await text(page, '#practice-head'), new RegExp(`question ${n} of 12`));
    assert.equal(await page.evaluate(() => document.activeElement?.id), 'practice-question');
    assert.equal(await page.locator('#practice-hint, #practice-show').count(), 0);
    const step = await asked(page);
    await page.keyboard.press('Tab');
    if (step.kind === 'choice') await page.keyboard.press('Space');
    else await page.keyboard.type(anyAnswer(step).split(' ')[0]);
    if (step.kind === 'correction') {
      await page.keyboard.press('Tab');
      await page.keyboard.press('Space');
    }
    await page.keyboard.press('Enter');
    await drawn(page);
    assert.equal(await page.evaluate(() => document.activeElement?.id), 'practice-verdict');
    const { judged } = await state(page);
    assert.ok(judged?.words[0]);
    assert.equal((await text(page, '#practice-verdict .outcome')), judged.words[0]);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await drawn(page);
  }
  const { result } = await state(page);
  assert.ok(result);
  assert.equal(result.of, 12);
  assert.ok((await text(page, '#practice-result')).includes(result.words));
  assert.match(result.words, /plausibly \d+–\d+\u00a0?\s?%/);
  assert.equal(await page.evaluate(() => document.activeElement?.id), 'practice-result');
});

lesson.test('a whole check by touch on a phone, every answer right', { at: AT, viewport: PHONE, hasTouch: true, isMobile: true },
  async (page) => {
    await begin(page, 'check', 9);
    for (let n = 1; n <= 12; n += 1) {
      // The right value is the core's: the same item asked of a tutor of its own.
      const right = await page.evaluate(async () => {
        const lesson = globalThis.__lesson;
        if (!lesson) throw new Error('no lesson');
        const { load } = await import(new URL('core.mjs', location.href).href);
        const tutor = (await load()).tutor();
        const { code, number, mode } = lesson.core.tutor().state();
        let now = tutor.begin({ mode, code });
        for (let k = 1; k <= number; k += 1) {
          const kind = now.item.steps[now.item.asked].kind;
          now = tutor.answer(kind === 'choice' ? 'direct' : kind === 'correction' ? '7 left' : '94');
          if (k < number) now = tutor.next();
        }
        return now.judged.right_text;
      });
      await fill(page, right);
      await page.locator('.lesson-commit').tap();
      await drawn(page);
      assert.equal((await state(page)).judged?.right, true, `question ${n}: ${right}`);
      await page.locator('#practice-next').tap();
      await drawn(page);
    }
    const { result } = await state(page);
    assert.equal(result?.right, 12);
    assert.equal(result?.score, 100);
    assert.match(await text(page, '#practice-result'), /12 of 12/);
  });

lesson.test('practice goes from the worked example up, and only then counts', { at: AT }, async (page) => {
  await page.locator('.practice details summary').first().click();
  for (const skill of ['entry', 'wind', 'timing', 'clearance']) await page.locator(`input[value=${skill}][name=practice-skill]`).uncheck();
  await begin(page, 'go');
  let now = await state(page);
  assert.equal(now.stage, 'read');
  assert.equal(await page.locator('#practice-steps .step-given').count(), 3);
  await page.locator('#practice-next').click();
  /** @type {string[]} */
  const levels = [];
  for (let n = 0; n < 30; n += 1) {
    now = await state(page);
    if (now.stage === 'read') {
      await page.locator('#practice-next').click();
      continue;
    }
    const { level, asked: at } = /** @type {import('../../shell/types').TutorItem} */ (now.item);
    if (levels.at(-1) !== level) levels.push(level);
    // Nothing of the answer is in the page before it is given.
    assert.equal(await page.locator('#practice-steps li').nth(at ?? 0).locator('.step-worked').count(), 0);
    assert.equal(await page.evaluate(() => document.body.hasAttribute('data-asking')), true);
    // The sum as docs/practice.md has it, done anew from what the question says.
    const { question, steps } = /** @type {import('../../shell/types').TutorItem} */ (now.item);
    const [, inbound] = /inbound course (\d+)/.exec(question) ?? [];
    const [, course, held] = /on course (\d+)°, holding heading (\d+)/.exec(question) ?? [];
    const round = (/** @type {number} */ degrees) => ((degrees + 719) % 360) + 1;
    const outbound = round(Number(inbound) + 180);
    const thirty = round(outbound + (question.includes('left turns') ? 30 : -30));
    const off = ((Number(held) - Number(course) + 540) % 360) - 180;
    /** @type {Record<string, number>} */
    const sum = { outbound, thirty, heading: round(thirty + off) };
    const right = sum[steps[at ?? 0].id];
    if (level === 'bare' && !question.includes(`${right}`)) {
      assert.doesNotMatch(await page.locator('#practice-item').innerHTML(), new RegExp(`\\b0*${right}\\b`));
      assert.doesNotMatch(await page.locator('#picture').innerHTML(), new RegExp(`\\b0*${right}°`));
    }
    await fill(page, String(right));
    await page.locator('.lesson-commit').click();
    await drawn(page);
    now = await state(page);
    assert.equal(now.judged?.right, true, `${level}: ${right}`);
    if (now.judged?.counted !== null) assert.equal(now.judged?.counted, level === 'all-blank' || level === 'bare');
    if (level === 'bare' && now.skills.find(({ skill }) => skill === 'heading')?.counted === 4) break;
    await page.locator('#practice-next').click();
    await drawn(page);
  }
  assert.deepEqual(levels, ['one-blank', 'all-blank', 'bare']);
  assert.match(await text(page, '#practice-skills'), /4/);
});

lesson.test('a wrong answer is flown, and the right one beside it', { at: AT }, async (page) => {
  await begin(page, 'check', 9);
  let beside = 0;
  for (let n = 0; n < 6; n += 1) {
    assert.doesNotMatch(await page.evaluate(() => globalThis.__lesson?.session.svg() ?? ''), /right answer/);
    await fill(page, anyAnswer(await asked(page)));
    await page.locator('.lesson-commit').click();
    await drawn(page);
    const { judged } = await state(page);
    assert.ok(judged);
    const flown = await page.evaluate(() => globalThis.__lesson?.session.link());
    const evaluated = await page.evaluate((link) => globalThis.__lesson?.core.evaluate(link ?? '').link, judged.student_link);
    assert.equal(flown, evaluated);
    const differs = judged.student_link !== judged.right_link;
    const drawn_beside = /right answer/.test(await page.evaluate(() => globalThis.__lesson?.session.svg() ?? ''));
    assert.equal(drawn_beside, differs);
    assert.equal(/In the picture: yours/.test(await text(page, '#practice-said')), differs);
    if (differs) beside += 1;
    assert.deepEqual(await page.locator('#practice-verdict .reason').allInnerTexts(), judged.words.slice(1));
    await page.locator('#practice-next').click();
    await drawn(page);
  }
  assert.ok(beside >= 2, 'some of these answers are wrong');
});

lesson.test('what cannot be read is no try, and says why', { at: AT }, async (page) => {
  await begin(page, 'check');
  await page.locator('.lesson-commit').click();
  assert.equal(await page.locator('#practice-unread').isVisible(), true);
  assert.notEqual(await text(page, '#practice-unread'), '');
  const { stage, judged } = await state(page);
  assert.equal(stage, 'ask');
  assert.notEqual(judged?.readable, true);
});

lesson.test('progress outlives the page, is saved, cleared and read again', { at: AT }, async (page) => {
  await begin(page, 'check');
  await fill(page, anyAnswer(await asked(page)));
  await page.locator('.lesson-commit').click();
  await drawn(page);
  assert.match(await text(page, '#practice-kept'), /kept on this device/);
  const before = await page.evaluate(() => globalThis.__lesson?.core.tutor().progress());
  await page.reload();
  await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  assert.equal(await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()), before);
  const [file] = await Promise.all([page.waitForEvent('download'), page.locator('#practice-export').click()]);
  const path = join(mkdtempSync(join(tmpdir(), 'practice-')), 'progress.json');
  await file.saveAs(path);
  assert.equal(readFileSync(path, 'utf8'), before);
  await page.locator('#practice-clear').click();
  await page.locator('#practice-clear-no').click();
  assert.equal(await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()), before);
  await page.locator('#practice-clear').click();
  await page.locator('#practice-clear-yes').click();
  assert.notEqual(await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()), before);
  await page.locator('#practice-import').setInputFiles(path);
  await page.waitForFunction((text) => globalThis.__lesson?.core.tutor().progress() === text, before);
  writeFileSync(path, '{"format": 3}');
  await page.locator('#practice-import').setInputFiles(path);
  await page.waitForFunction(() => document.querySelectorAll('#practice-import-problems li').length > 0);
  assert.equal(await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()), before);
});

lesson.test('where nothing may be kept, practice goes on and says so', {
  at: AT,
  before: (page) => page.addInitScript(() => {
    Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError'); } });
  }),
}, async (page) => {
  assert.match(await text(page, '#practice-kept'), /keeps nothing/);
  await begin(page, 'check');
  await fill(page, anyAnswer(await asked(page)));
  await page.locator('.lesson-commit').click();
  await drawn(page);
  assert.equal((await state(page)).stage, 'feedback');
});

const KEPT = 'holding-practice';
/** @param {Page} page */
const stored = (page) => page.evaluate((key) => localStorage.getItem(key), KEPT);

lesson.test('what is kept and cannot be read is left alone until it is cleared', {
  at: AT,
  before: (page) => page.addInitScript((key) => { localStorage.setItem(key, localStorage.getItem(key) ?? '{"format": "of tomorrow"'); }, KEPT),
}, async (page) => {
  assert.match(await text(page, '#practice-kept'), /could not be read/);
  assert.ok(await page.locator('#practice-import-problems li').count());
  await begin(page, 'check');
  await fill(page, anyAnswer(await asked(page)));
  await page.locator('.lesson-commit').click();
  await drawn(page);
  assert.equal(await stored(page), '{"format": "of tomorrow"');
  await page.locator('#practice-clear').click();
  await page.locator('#practice-clear-yes').click();
  assert.equal(await stored(page), null, 'cleared is gone, not empty');
  assert.equal(await page.locator('#practice-import-problems li').count(), 0);
  assert.match(await text(page, '#practice-kept'), /kept on this device/);
  await begin(page, 'check');
  await fill(page, anyAnswer(await asked(page)));
  await page.locator('.lesson-commit').click();
  await drawn(page);
  assert.match(await stored(page) ?? '', /"open_check":\{/);
});

lesson.test('progress can be had and given as text where files are denied', { at: AT }, async (page) => {
  await begin(page, 'check');
  await fill(page, anyAnswer(await asked(page)));
  await page.locator('.lesson-commit').click();
  await drawn(page);
  const before = await page.evaluate(() => globalThis.__lesson?.core.tutor().progress() ?? '');
  await page.locator('#practice-as-text summary').click();
  await page.waitForFunction((want) => /** @type {HTMLTextAreaElement} */ (document.getElementById('practice-text')).value === want, before);
  await page.locator('#practice-clear').click();
  await page.locator('#practice-clear-yes').click();
  assert.equal(await page.locator('#practice-text').inputValue(), await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()));
  await page.locator('#practice-text').fill(before);
  await page.locator('#practice-text-read').click();
  assert.equal(await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()), before);
  assert.equal(await stored(page), before);
  await page.locator('#practice-text').fill('nothing');
  await page.locator('#practice-text-read').click();
  assert.ok(await page.locator('#practice-import-problems li').count());
  assert.equal(await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()), before);
});

lesson.test('a hint is no try, and “Show me” shows', { at: AT }, async (page) => {
  await page.locator('.practice details summary').first().click();
  for (const skill of ['entry', 'wind', 'timing', 'clearance']) await page.locator(`input[value=${skill}][name=practice-skill]`).uncheck();
  await begin(page, 'go');
  await page.locator('#practice-next').click();
  await drawn(page);
  const { hints_left } = /** @type {import('../../shell/types').TutorItem} */ ((await state(page)).item);
  assert.ok(hints_left > 0);
  await page.locator('#practice-hint').click();
  await drawn(page);
  let now = await state(page);
  assert.equal(now.stage, 'ask');
  assert.equal(await text(page, '#practice-form .practice-hint'), now.item?.hints[0]);
  assert.equal(await page.evaluate(() => document.activeElement?.id), 'practice-answer');
  await page.waitForFunction((hint) => document.getElementById('live')?.textContent === hint, now.item?.hints[0]);
  await page.locator('#practice-show').click();
  await drawn(page);
  now = await state(page);
  assert.equal(now.judged?.right, null);
  assert.ok((await text(page, '#practice-verdict')).includes(now.judged?.right_text ?? '?'));
  assert.equal(now.judged?.counted, false);
  assert.equal(now.skills.find(({ skill }) => skill === 'heading')?.counted, 0);
});

lesson.test('after the check: again with another code, and back to practice', { at: AT }, async (page) => {
  await begin(page, 'check');
  for (let n = 0; n < 12; n += 1) {
    await fill(page, anyAnswer(await asked(page)));
    await page.locator('.lesson-commit').click();
    await drawn(page);
    await page.locator('#practice-next').click();
    await drawn(page);
  }
  await fitsAt(page, WIDTHS);
  assert.deepEqual(await tooSmall(page, '#mode-practice :is(button, input, select, summary)', 24), []);
  const { code } = await state(page);
  await page.locator('#practice-result [data-do=again]').click();
  await drawn(page);
  const again = await state(page);
  assert.equal(again.stage, 'ask');
  assert.equal(again.number, 1);
  assert.notEqual(again.code, code);
  await page.locator('#practice-stop').click();
  assert.equal(await page.locator('#practice-start').isVisible(), true);
});

lesson.test('a set from a file is used, and its faults are named', { at: AT }, async (page) => {
  const folder = mkdtempSync(join(tmpdir(), 'sets-'));
  const path = join(folder, 'set.json');
  writeFileSync(path, '{"id": "week-3", "title": "Week 3", "skills": ["wind"], "ranges": {"ias": 999}}');
  await page.locator('.practice details summary').first().click();
  await page.locator('#practice-file').setInputFiles(path);
  await page.waitForFunction(() => document.querySelectorAll('#practice-set-problems li').length === 1);
  assert.match(await text(page, '#practice-set-problems'), /ranges\.ias is 999; allowed is 80–200/);
  assert.match(await text(page, '#practice-set-about'), /Week 3/);
  await begin(page, 'check');
  assert.equal((await state(page)).set.id, 'week-3');
  assert.equal((await state(page)).item?.skill, 'wind');
});

lesson.test('a check from a file goes on when the person comes back to it, by link or back button', { at: AT }, async (page) => {
  const path = join(mkdtempSync(join(tmpdir(), 'sets-')), 'set.json');
  writeFileSync(path, '{"id": "week-3", "title": "Week 3", "skills": ["wind"]}');
  await page.locator('.practice details summary').first().click();
  await page.locator('#practice-file').setInputFiles(path);
  await page.waitForFunction(() => /Week 3/.test(document.querySelector('#practice-set-about')?.textContent ?? ''));
  await begin(page, 'check');
  const { code } = await state(page);
  for (const back of [() => page.locator('#to-practice').click(), () => page.goBack()]) {
    await page.locator('#to-explore').click();
    await page.waitForFunction(() => document.body.dataset.mode === 'explore');
    await back();
    await page.waitForFunction(() => document.body.dataset.mode === 'practice');
    const now = await state(page);
    assert.deepEqual([now.mode, now.set.id, now.code], ['check', 'week-3', code]);
    assert.equal(await page.locator('#practice-form').isVisible(), true);
  }
});

/** What the address says behind the #. @param {Page} page @param {RegExp} what */
const addressSays = (page, what) => page.waitForFunction((source) => new RegExp(source).test(location.hash), what.source)
  .catch(() => assert.match(page.url(), what));

/** Leaves out of an address what the page is to find out for itself. @param {Page} page @param {string} hash */
const goTo = (page, hash) => page.evaluate((to) => { location.hash = to; }, hash);

lesson.test('a file that is no set leaves the one before, and a built-in one can be had again', { at: AT }, async (page) => {
  const folder = mkdtempSync(join(tmpdir(), 'sets-'));
  const [good, bad] = ['good.json', 'bad.json'].map((name) => join(folder, name));
  writeFileSync(good, '{"id": "week-3", "title": "Week 3"}');
  writeFileSync(bad, '{"id": 7}');
  await page.locator('.practice details summary').first().click();
  await page.locator('#practice-set').selectOption('left-turns');
  await addressSays(page, /&set=left-turns/);
  await page.locator('#practice-file').setInputFiles(good);
  await page.waitForFunction(() => /Week 3/.test(document.querySelector('#practice-set-about')?.textContent ?? ''));
  // A file of the person's has no address.
  await addressSays(page, /^(?!.*set=)/);
  // The same file again, mended, is read again.
  writeFileSync(good, '{"id": "week-3", "title": "Week 3 again"}');
  await page.locator('#practice-file').setInputFiles(good);
  await page.waitForFunction(() => /Week 3 again/.test(document.querySelector('#practice-set-about')?.textContent ?? ''));
  await page.locator('#practice-file').setInputFiles(bad);
  await page.waitForFunction(() => document.querySelectorAll('#practice-set-problems li').length > 0);
  assert.equal((await state(page)).set.id, 'week-3');
  assert.match(await text(page, '#practice-set-about'), /Week 3 again/);
  assert.doesNotMatch(page.url(), /set=/);
  // Out of the list once more, though it was what the list held before.
  await page.locator('#practice-set').selectOption('left-turns');
  await page.waitForFunction(() => globalThis.__lesson?.core.tutor().state().set.id === 'left-turns');
  assert.equal(await page.locator('#practice-set-problems li').count(), 0);
});

const SET = JSON.stringify({ id: 'class-7', title: 'Class 7', skills: ['wind'] });

lesson.test('a set that the link names as a file stays in the address', {
  at: `${AT}&set=sets%2Fclass-7.json&check=1`,
  before: (page) => page.route('**/sets/class-7.json', (route) => route.fulfill({ contentType: 'application/json', body: SET })),
}, async (page) => {
  await page.waitForFunction(() => /Class 7/.test(document.querySelector('#practice-set-about')?.textContent ?? ''));
  assert.match(await text(page, '#practice-asked'), /check/);
  const code = await page.evaluate(() => globalThis.__lesson?.core.tutor().newCode(5) ?? '');
  await page.locator('#practice-code').fill(code);
  await page.locator('#practice-code').press('Tab');
  await addressSays(page, new RegExp(`set=sets%2Fclass-7.json&code=${code}&check=1`));
  await page.locator('#practice-check').click();
  await drawn(page);
  assert.equal((await state(page)).set.id, 'class-7');
});

lesson.test('a set that cannot be fetched is said, and the one before serves', {
  at: `${AT}&set=nowhere.json`, mayComplain: true,
}, async (page) => {
  await page.waitForFunction(() => document.querySelectorAll('#practice-set-problems li').length > 0);
  assert.match(await text(page, '#practice-set-problems'), /nowhere\.json/);
  assert.equal((await state(page)).set.id, 'mixed');
});

lesson.test('a later link of the same page brings its set and code', { at: AT }, async (page) => {
  const [one, two] = await page.evaluate(() => [1, 2].map((n) => globalThis.__lesson?.core.tutor().newCode(n) ?? ''));
  await begin(page, 'check');
  // Followed from without while a check runs: the check waits, the link is shown.
  await goTo(page, `mode=practice&set=one-wind&code=${one}`);
  await page.waitForFunction((code) => /** @type {HTMLInputElement} */ (document.getElementById('practice-code')).value === code, one);
  assert.equal((await state(page)).mode, 'none');
  assert.equal((await state(page)).set.id, 'one-wind');
  await goTo(page, '');
  await page.waitForFunction(() => document.body.dataset.mode === 'explore');
  await goTo(page, `mode=practice&code=${two}`);
  await page.waitForFunction((code) => /** @type {HTMLInputElement} */ (document.getElementById('practice-code')).value === code, two);
  assert.equal((await state(page)).set.id, 'mixed');
  await begin(page, 'check');
  await page.locator('#to-card').click();
  await page.waitForFunction(() => document.body.dataset.mode === 'card');
  await page.locator('#to-practice').click();
  await page.waitForFunction(() => document.body.dataset.mode === 'practice');
  assert.equal((await state(page)).mode, 'check', 'coming back goes on');
});

lesson.test('a bad code is refused with a reason; a link brings set and code', { at: AT }, async (page) => {
  await page.locator('#practice-code').fill('12345');
  await page.locator('#practice-go').click();
  assert.match(await text(page, '#practice-problem'), /12345/);
  const code = await page.evaluate(() => globalThis.__lesson?.core.tutor().newCode(77));
  await page.goto(`${new URL(page.url()).origin}/?webgl=false&n=1#mode=practice&set=left-turns&code=${code}`);
  await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  await page.waitForFunction(() => document.querySelector('#practice-set-about')?.textContent !== '');
  assert.equal(await page.locator('#practice-code').inputValue(), code);
  assert.equal(await page.locator('#practice-set').inputValue(), 'left-turns');
});

lesson.test('a clearance is read before its hold is seen', { at: `${AT}&set=clearances` }, async (page) => {
  await begin(page, 'check');
  assert.equal(await page.locator('.chart').isVisible(), false);
  await fill(page, '7 left');
  await page.locator('.lesson-commit').click();
  await drawn(page);
  assert.equal(await page.locator('.chart').isVisible(), true);
  // Worked, it hides nothing.
  await page.locator('#practice-stop').click();
  await begin(page, 'go');
  await page.locator('#practice-next').waitFor();
  assert.equal(await page.locator('.chart').isVisible(), true);
  const { item } = await state(page);
  assert.equal(item?.level, 'worked');
  const [inbound] = /inbound=(\d+)/.exec(item?.link ?? '')?.slice(1) ?? [];
  assert.equal(parseInt(item?.steps.at(-1)?.right_text ?? '', 10), Number(inbound));
});

lesson.test('leaving gives back the scene, its layers and its handles', { at: '?webgl=false#wind=200/30&mode=practice' }, async (page) => {
  await begin(page, 'check');
  await page.locator('#to-explore').click();
  await page.waitForFunction(() => document.body.dataset.mode === 'explore');
  await drawn(page);
  assert.equal(await page.evaluate(() => globalThis.__lesson?.session.link()), 'wind=200/30');
  assert.ok(await page.evaluate(() => globalThis.__lesson?.session.handle(1)));
  assert.equal(await page.evaluate(() => globalThis.__lesson?.session.layers().exact), true);
  await page.goBack();
  await page.waitForFunction(() => document.body.dataset.mode === 'practice');
  assert.equal((await state(page)).mode, 'check');
});

lesson.test('everything fits at every width, and every target is large enough', { at: AT }, async (page) => {
  await fitsAt(page, WIDTHS);
  await begin(page, 'check');
  await fitsAt(page, WIDTHS);
  assert.deepEqual(await tooSmall(page, '#mode-practice :is(button, input, select, summary), .modes a', 24), []);
});
