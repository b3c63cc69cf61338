// The mode "Lesson": a prediction first, then its flight; walked through by keyboard and by touch.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { axeFindsNothing, fitsAt, spacedOut, tooSmall } from './access.mjs';
import { ask, atRest, drawn, isReady, lessons, live, text } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../shell/lesson-steps.js').Lesson} Lesson */

const browser = await lessons();
/** @type {Lesson} */
const { steps } = JSON.parse(await readFile(new URL('../../assets/lesson/entry.en.json', import.meta.url), 'utf8'));
const words = JSON.parse(await readFile(new URL('../../assets/words/en.json', import.meta.url), 'utf8'));

const PHONE = { width: 390, height: 844 };
const AT = '?webgl=false#mode=lesson';
/** @param {string} id */
const at = (id) => `${AT}&step=${id}`;

/** @param {Page} page @param {string} title */
const onStep = (page, title) => page.waitForFunction((want) => document.getElementById('lesson-title')?.textContent === want, title);

/** The session has the scene of a step. @param {Page} page @param {string} scene */
async function hasScene(page, scene) {
  const own = await page.evaluate((link) => {
    const lesson = globalThis.__lesson;
    return [lesson?.session.link(), lesson?.core.evaluate(link).link];
  }, scene);
  assert.equal(own[0], own[1]);
}

const TRANSPORT = ['play', 'previous', 'next', 'scrub', 'speed'];

/** Nothing tells the answer: not the picture, not its words, not the clock. @param {Page} page */
async function isAsking(page) {
  await drawn(page);
  for (const id of TRANSPORT) assert.equal(await page.locator(`#${id}`).isDisabled(), true, id);
  for (const id of ['ticks', 'clock']) assert.equal(await page.locator(`#${id}`).isVisible(), false, id);
  assert.equal((await live(page)).t_s, 0);
  assert.equal((await live(page)).playing, false);
  assert.doesNotMatch(await page.locator('#picture').evaluate((el) => el.textContent ?? ''), /NM (past|short)|on the (inbound )?course|turn \d/);
  assert.doesNotMatch(await page.locator('#summary').evaluate((el) => el.textContent ?? ''), /roll out/);
  assert.equal(await page.locator('#lesson-said').count(), 0);
  assert.equal(await page.locator('#lesson-result').innerText(), '');
}

/** The answer, what to watch for, why, and a way on. @param {Page} page */
async function hasAnswered(page) {
  await drawn(page);
  for (const id of TRANSPORT) assert.equal(await page.locator(`#${id}`).isDisabled(), false, id);
  assert.ok((await text(page, '#lesson-said')).length > 8);
  assert.ok(await page.locator('.lesson-observe li').count() >= 1);
  assert.ok((await text(page, '#lesson-result')).length > 100);
  assert.equal(await page.locator('.lesson-commit').count(), 0);
}

/** @param {Page} page */
const focused = (page) => page.evaluate(() => document.activeElement?.id || document.activeElement?.className || document.activeElement?.tagName);

/** Tab until an element has the focus. @param {Page} page @param {string} selector */
async function tabTo(page, selector) {
  for (let i = 0; i < 40; ++i) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((css) => document.activeElement?.matches(css), selector)) return;
  }
  assert.fail(`${selector} is not reached by Tab`);
}

browser.test('the whole lesson by keyboard, every second answer wrong', { at: AT, reducedMotion: 'reduce' }, async (page) => {
  await onStep(page, steps[0].title);
  for (const [i, step] of steps.entries()) {
    await onStep(page, step.title);
    assert.equal(await text(page, '#lesson-count'), `Step ${i + 1} of ${steps.length}`);
    assert.equal(await page.locator('#lesson-row [aria-current="step"]').innerText(), String(i + 1));
    await hasScene(page, step.scene);
    await isAsking(page);
    if (i > 0) assert.equal(await focused(page), 'lesson-title');
    if (step.predict.kind === 'number') {
      await tabTo(page, '#lesson-number');
      await page.keyboard.type(i % 2 ? '20' : '123');
    } else {
      await tabTo(page, 'input[name="lesson-option"]');
      await page.keyboard.press('Space');
      for (let down = 0; down < i % 3; ++down) await page.keyboard.press('ArrowDown');
    }
    await tabTo(page, '.lesson-commit');
    await page.keyboard.press('Enter');
    await hasAnswered(page);
    assert.equal(await focused(page), 'lesson-said', 'the focus is at what is new');
    const { t_s, end_s, playing } = await live(page);
    assert.deepEqual([t_s, playing], [end_s, false], 'reduced motion: the finished track');
    await tabTo(page, '.lesson-next');
    if (i + 1 < steps.length) await page.keyboard.press('Enter');
  }
  assert.match(await page.locator('.lesson-next').getAttribute('href') ?? '', /mode=practice$/);
});

browser.test('a flight grows with the aircraft, and is told when it is flown; afterwards it stays', { at: `${AT}&step=turn` }, async (page) => {
  const told = () => page.locator('#picture').evaluate((el) => /NM (past|short)|on the (inbound )?course/.test(el.textContent ?? ''));
  await page.locator('#lesson-show').click();
  await page.locator('#lesson-said').waitFor();
  await page.locator('#play').click();
  await page.waitForFunction(() => globalThis.__lesson?.session.live().playing === false);
  await page.locator('#scrub').fill('30');
  await drawn(page);
  assert.equal(await told(), false, 'not before it is flown');
  const { end_s } = await live(page);
  await page.locator('#scrub').fill(String(Math.floor(end_s)));
  await page.waitForFunction(() => /NM (past|short)|on the (inbound )?course/.test(document.getElementById('picture')?.textContent ?? ''));
  await page.locator('#scrub').fill('20');
  await drawn(page);
  assert.equal(await told(), true, 'it has been told');
});

browser.test('the whole lesson by touch, shown or answered', { at: AT, viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
  for (const [i, step] of steps.entries()) {
    await onStep(page, step.title);
    await isAsking(page);
    if (i % 2) {
      await page.locator('#lesson-show').tap();
    } else if (step.predict.kind === 'number') {
      await page.locator('#lesson-number').tap();
      await page.locator('#lesson-number').fill('095');
      await page.locator('.lesson-commit').tap();
    } else {
      await page.locator('.lesson-option').first().tap();
      await page.locator('.lesson-commit').tap();
    }
    await hasAnswered(page);
    assert.equal((await live(page)).playing, true, 'it is flown');
    const box = await page.locator('#picture').boundingBox();
    assert.ok(box && box.y >= -1 && box.y < 200, 'the picture is in view');
    if (i + 1 < steps.length) await page.locator('.lesson-next').tap();
  }
});

browser.test('nothing is flown before an answer, and what is missing is said', { at: at('side') }, async (page) => {
  await onStep(page, steps[1].title);
  await page.locator('.lesson-commit').click();
  assert.equal(await text(page, '#lesson-problem'), words['page.lesson.missing.heading']);
  assert.equal(await focused(page), 'lesson-number');
  await isAsking(page);
  await page.locator('#lesson-number').fill('north');
  await page.keyboard.press('Enter');
  await isAsking(page);
  await page.evaluate(() => { location.hash = 'mode=lesson&step=turn'; });
  await onStep(page, 'Wind in the turn');
  await page.locator('.lesson-commit').click();
  assert.equal(await text(page, '#lesson-problem'), words['page.lesson.missing.choice']);
  await isAsking(page);
});

browser.test('a wrong heading is flown beside the right one, a right one is not', { at: at('side'), reducedMotion: 'reduce' }, async (page) => {
  await onStep(page, steps[1].title);
  const label = words['page.lesson.note.yours'];
  await page.locator('#lesson-number').fill('28');
  await page.keyboard.press('Enter');
  await hasAnswered(page);
  assert.match(await text(page, '#lesson-said'), /It is 088°\. You said 028°\. Within 3° counts as the same\./);
  assert.ok(await page.locator('#picture').evaluate((el, words_) => el.textContent?.includes(words_), label));
  await page.reload();
  await onStep(page, steps[1].title);
  await page.locator('#lesson-number').fill('088');
  await page.keyboard.press('Enter');
  await hasAnswered(page);
  assert.match(await text(page, '#lesson-said'), /As you expected: 088°\./);
  assert.ok(!await page.locator('#picture').evaluate((el, words_) => el.textContent?.includes(words_), label));
});

browser.test('a choice: the answer and the person’s own stand out, in words too', { at: at('turn'), reducedMotion: 'reduce' }, async (page) => {
  await onStep(page, 'Wind in the turn');
  await page.locator('.lesson-option').nth(2).click();
  await page.locator('.lesson-commit').click();
  assert.match(await text(page, '.lesson-answers .flown'), new RegExp(`^Past .*${words['page.lesson.note.flown']}$`));
  assert.match(await text(page, '.lesson-answers .yours'), new RegExp(`^Short .*${words['page.lesson.note.yours']}$`));
  assert.match(await text(page, '.lesson-observe'), /You roll out 0\.7 NM past the inbound course/);
});

browser.test('the address names the step; back and forward go through the steps; what was answered stays', { at: `${AT}&step=join`, reducedMotion: 'reduce' }, async (page) => {
  await onStep(page, steps[0].title);
  await page.locator('#lesson-show').click();
  await page.locator('.lesson-next').click();
  await onStep(page, steps[1].title);
  await page.waitForFunction(() => location.hash === '#mode=lesson&step=side');
  await page.locator('#lesson-row a').nth(8).click();
  await onStep(page, 'The laps');
  await isAsking(page);
  await page.goBack();
  await onStep(page, steps[1].title);
  await isAsking(page);
  await page.goBack();
  await onStep(page, steps[0].title);
  await hasAnswered(page);
  await page.goForward();
  await onStep(page, steps[1].title);
  await page.reload();
  await isReady(page, 'core');
  await onStep(page, steps[1].title);
});

browser.test('the query can name the step, as course platforms do', { at: '?webgl=false&mode=lesson&step=turn' }, async (page) => {
  await onStep(page, steps.find(({ id }) => id === 'turn')?.title ?? 'no such step');
  assert.equal(await page.evaluate(() => location.hash), '#mode=lesson&step=turn');
});

browser.test('an unknown step is the first', { at: at('nowhere') }, async (page) => {
  await onStep(page, steps[0].title);
  await isAsking(page);
});

browser.test('the person’s own scene and layers are theirs again', { at: '?webgl=false#wind=310/30&mode=lesson&step=sector', reducedMotion: 'reduce' }, async (page) => {
  await onStep(page, 'Choose the entry');
  await page.locator('#lesson-show').click();
  await hasAnswered(page);
  assert.equal((await ask(page, 'layers')).sectors, true);
  await hasScene(page, 'arrive=30');
  assert.match(await page.evaluate(() => location.hash), /^#wind=310\/30&mode=lesson/);
  await page.getByRole('link', { name: words['page.lesson.to_explore'] }).click();
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=310/30');
  await drawn(page);
  const layers = await ask(page, 'layers');
  assert.deepEqual([layers.sectors, layers.rule, layers.exact, layers.no_correction], [false, true, true, true]);
  assert.equal(await page.locator('#play').isDisabled(), false);
  assert.ok(await ask(page, 'handle', 1), 'the wind can be taken hold of again');
  assert.match(await page.locator('#summary').evaluate((el) => el.textContent ?? ''), /roll out/);
  assert.equal(await page.locator('#mode-lesson').isVisible(), false);
});

browser.test('left while it asks, nothing stays hidden', { at: at('turn') }, async (page) => {
  await onStep(page, 'Wind in the turn');
  await isAsking(page);
  await page.evaluate(() => { location.hash = 'wind=200/10'; });
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=200/10');
  await drawn(page);
  for (const id of TRANSPORT) assert.equal(await page.locator(`#${id}`).isDisabled(), false, id);
  assert.equal(await page.locator('#clock').isVisible(), true);
  assert.match(await page.locator('#picture').evaluate((el) => el.textContent ?? ''), /past|short|on course/);
});

browser.test('the answer is not read out before it is given', { at: at('turn') }, async (page) => {
  await onStep(page, 'Wind in the turn');
  // Longer than results wait before they are read out.
  await page.waitForTimeout(1200);
  assert.equal(await text(page, '#live'), '');
});

browser.test('it plays to its end and rests; waiting for an answer asks for no frame', { at: at('join') }, async (page) => {
  await onStep(page, steps[0].title);
  await atRest(page);
  const frames = await page.evaluate(() => globalThis.__lesson?.frames());
  await page.waitForTimeout(300);
  assert.equal(await page.evaluate(() => globalThis.__lesson?.frames()), frames);
  await ask(page, 'speed', 30);
  await page.locator('#lesson-show').click();
  assert.equal((await live(page)).playing, true);
  await page.waitForFunction(() => !globalThis.__lesson?.session.live().playing);
  const { t_s, end_s } = await live(page);
  assert.equal(t_s, end_s);
});

/** @param {Page} page */
const shown = async (page) => {
  await page.locator('#lesson-show').click();
  await hasAnswered(page);
};

browser.test('axe finds nothing on a phone, asked and answered', { at: at('side'), viewport: PHONE, reducedMotion: 'reduce' }, async (page) => {
  await isAsking(page);
  await axeFindsNothing(page, 'asked');
  await shown(page);
  await axeFindsNothing(page, 'answered');
});

browser.test('nothing is cut off or sticks out in any step, asked or answered', { at: AT, reducedMotion: 'reduce' }, async (page) => {
  for (const step of steps) {
    await page.setViewportSize({ width: 1280, height: 860 });
    await page.evaluate((id) => { location.hash = `mode=lesson&step=${id}`; }, step.id);
    await onStep(page, step.title);
    await fitsAt(page, [320, 390, 719, 768, 1000]);
    await shown(page);
    await fitsAt(page, [320, 390, 719, 768, 1000]);
    assert.deepEqual(await tooSmall(page, '.mode a[href], .mode button, .mode input', 24), []);
  }
});

browser.test('nor with wider text spacing', { at: at('side'), reducedMotion: 'reduce' }, async (page) => {
  await onStep(page, steps[1].title);
  await spacedOut(page);
  await fitsAt(page, [320, 768, 1280]);
  await shown(page);
  await fitsAt(page, [320, 768, 1280]);
});

browser.test('by touch every target is 44 px or more', { at: at('turn'), viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
  await onStep(page, 'Wind in the turn');
  const all = '.mode a[href], .mode button, .mode input';
  assert.deepEqual(await tooSmall(page, all, 44), []);
  await shown(page);
  assert.deepEqual(await tooSmall(page, all, 44), []);
});

browser.test('on a small screen the focus is never under the picture', { at: at('first-leg'), viewport: { width: 390, height: 700 }, reducedMotion: 'reduce' }, async (page) => {
  await onStep(page, 'Wind on the first leg');
  for (let i = 0; i < 2; ++i) {
    for (const back of [false, true]) {
      await page.locator(back ? '.foot input >> nth=0' : '#lesson-row a >> nth=0').focus();
      for (let tab = 0; tab < 18; ++tab) {
        await page.keyboard.press(back ? 'Shift+Tab' : 'Tab');
        const hidden = await page.evaluate(() => {
          const el = document.activeElement;
          if (!el?.closest('.mode')) return '';
          const top = document.querySelector('.chart')?.getBoundingClientRect().bottom ?? 0;
          return el.getBoundingClientRect().bottom <= top + 4 ? el.outerHTML.slice(0, 80) : '';
        });
        assert.equal(hidden, '');
      }
    }
    if (i === 0) await shown(page);
  }
});
