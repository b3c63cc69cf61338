// The mode "Hand flying": a whole entry flown by keyboard and by touch, with the clock wound by
// the session's own tick; pausing, the hidden picture, the unknown wind, the debrief.
import assert from 'node:assert/strict';
import { WIDTHS, fitsAt, tooSmall } from './access.mjs';
import { ask, drawn, lessons, live, text } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../shell/types').FlyState} FlyState */

const PHONE = { width: 390, height: 844 };
const AT = '?webgl=false#mode=fly';

/** @param {Page} page @returns {Promise<FlyState>} */
const state = (page) => ask(page, 'flyState');

/**
 * The clock stands: what passes, passes by wind().
 * @param {Page} page
 */
async function standStill(page) {
  await page.locator('#fly-pause').click();
  assert.equal((await state(page)).playing, false);
}

/**
 * Lets `seconds` of the flight pass through the session's own clock, in frames of 0.1 s, and
 * the page see each of them.
 * @param {Page} page @param {number} until_s
 */
async function wind(page, until_s) {
  await page.evaluate((until) => {
    const session = globalThis.__lesson?.session;
    if (!session) throw new Error('no lesson');
    session.play();
    session.speed(8);
    while (session.live().t_s < until - 1e-6) session.tick(Math.min(0.1, (until - session.live().t_s) / 8));
    session.pause();
  }, until_s);
  // The page looks again where one of its own controls tells it that something changed.
  await page.evaluate(() => document.querySelector('input[name="fly-speed"]:checked')
    ?.dispatchEvent(new Event('change', { bubbles: true })));
  await drawn(page);
}

/** What was announced so far, in order. @param {Page} page */
async function listen(page) {
  await page.evaluate(() => {
    const region = document.getElementById('live');
    /** @type {any} */ (globalThis).heard = [];
    new MutationObserver(() => {
      if (region?.textContent) /** @type {any} */ (globalThis).heard.push(region.textContent);
    }).observe(/** @type {Node} */ (region), { childList: true, characterData: true, subtree: true });
  });
}
/** @param {Page} page @returns {Promise<string[]>} */
const heard = (page) => page.evaluate(() => /** @type {any} */ (globalThis).heard);

/** Tab until this control has the focus. @param {Page} page @param {string} id */
async function tabTo(page, id) {
  for (let i = 0; i < 120; ++i) {
    if (await page.evaluate((it) => document.activeElement?.id === it, id)) return;
    await page.keyboard.press('Tab');
  }
  assert.fail(`Tab never comes to ${id}`);
}

lesson.test('an entry by keyboard alone, and what the debrief says of it', { at: AT }, async (page) => {
  await listen(page);
  await tabTo(page, 'fly-start');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => globalThis.__lesson?.session.live().playing);
  assert.equal(await page.locator('#fly-cockpit').isVisible(), true);
  assert.equal(await page.evaluate(() => document.activeElement?.id), 'fly-cockpit', 'the focus goes along');
  await tabTo(page, 'fly-pause');
  await page.keyboard.press('Space');
  assert.equal((await state(page)).playing, false);

  await wind(page, 0.2);
  await tabTo(page, 'fly-clock');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Shift+Tab');
  await page.locator('#fly-bug-field').focus();
  await page.keyboard.type('115');
  await page.keyboard.press('Enter');
  for (const key of ['ArrowUp', 'ArrowUp', 'ArrowUp', 'PageUp', 'PageDown']) await page.keyboard.press(key);
  assert.equal((await state(page)).bug_deg, 118);
  assert.equal(await page.locator('#fly-bug-field').inputValue(), '118');
  await wind(page, 30);
  assert.equal(await text(page, '#fly-heading'), '118°');
  assert.equal(await text(page, '#fly-stopwatch'), '0:30');
  await wind(page, 62);
  await tabTo(page, 'fly-left');
  await page.keyboard.press('Space');
  assert.equal(await page.locator('#fly-left').getAttribute('aria-pressed'), 'true');
  await wind(page, 70);
  await page.locator('#fly-bug-field').focus();
  await page.keyboard.type('230');
  await page.keyboard.press('Enter');
  await wind(page, 160);
  assert.equal(await text(page, '#fly-heading'), '230°');
  await wind(page, 230);
  await tabTo(page, 'fly-end');
  await page.keyboard.press('Enter');
  await page.locator('#fly-debrief').waitFor({ state: 'visible' });
  assert.equal(await page.evaluate(() => document.activeElement?.id), 'fly-debrief');

  const debrief = await ask(page, 'flyDebrief');
  assert.equal(debrief.kind, 'offset');
  assert.equal(debrief.rounds[0].heading_deg, 118);
  assert.ok(Math.abs(debrief.rounds[0].outbound_s - 62) < 0.05, debrief.rounds[0].outbound_s);
  const words = await text(page, '#fly-lines');
  for (const { text: line } of debrief.lines) assert.ok(words.includes(line), line);
  assert.match(words, /You started the stopwatch over the fix/);
  assert.match(words, /The wind was 160° at 24 kt/);
  assert.match(await text(page, '#fly-table'), /118°/);
  await page.waitForFunction(() => /** @type {any} */ (globalThis).heard.at(-1)?.startsWith('The flight is over'));
  const said = (await heard(page)).join(' ');
  for (const part of ['Flying.', 'Over the fix', 'Turning right', 'Turning left', 'Wings level, heading 230', 'Stopwatch started', 'The flight is over']) {
    assert.ok(said.includes(part), `${part} in: ${said}`);
  }
  assert.ok((await heard(page)).length < 20, 'not every frame');
});

lesson.test('an entry by touch', { at: AT, viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
  await page.locator('#fly-start').tap();
  await page.locator('#fly-pause').tap();
  await wind(page, 0);
  await page.locator('#fly-clock').tap();
  await page.locator('[data-by="10"]').tap();
  await page.locator('[data-by="10"]').tap();
  await page.locator('[data-by="1"]').tap();
  const before = (await state(page)).bug_deg ?? 0;
  await wind(page, 60);
  await page.locator('#fly-left').tap();
  await wind(page, 100);
  await page.locator('#fly-level').tap();
  assert.equal((await state(page)).turning, 'none');
  await wind(page, 110);
  await page.locator('#fly-left').tap();
  await wind(page, 149);
  await page.locator('#fly-level').tap();
  await wind(page, 200);
  await page.locator('#fly-end').tap();
  await page.locator('#fly-debrief').waitFor({ state: 'visible' });
  const debrief = await ask(page, 'flyDebrief');
  assert.equal(debrief.rounds[0].heading_deg, before);
  assert.ok(debrief.rounds[0].turn_deg < -200, 'left, with a pause');
  assert.deepEqual(await tooSmall(page, '#mode-fly button, #mode-fly input', 44), []);
});

lesson.test('it flies by itself, and stands while paused', { at: AT }, async (page) => {
  await page.locator('#fly-start').click();
  await page.locator('label:has(input[name="fly-speed"][value="8"])').click();
  await page.waitForFunction(() => (globalThis.__lesson?.session.live().t_s ?? -60) > -58);
  await standStill(page);
  assert.equal(await text(page, '#fly-pause'), 'Go on');
  const { t_s } = await live(page);
  await drawn(page);
  await drawn(page);
  assert.equal((await live(page)).t_s, t_s);
  // The bug may be set while it stands.
  await page.locator('[data-by="-10"]').click();
  assert.equal((await live(page)).t_s, t_s);
  await page.locator('#fly-pause').click();
  await page.waitForFunction((then) => (globalThis.__lesson?.session.live().t_s ?? -60) > then + 1, t_s);
});

lesson.test('without the picture, with needles, in a wind that is not told', { at: AT }, async (page) => {
  await page.locator('label:has(#fly-picture)').click();
  await page.locator('label:has(#fly-needles)').click();
  await page.locator('label:has(input[value="drawn"])').click();
  await page.locator('#fly-start').click();
  assert.equal(await page.locator('#picture').isVisible(), false);
  await standStill(page);
  assert.equal((await state(page)).wind, null);
  assert.doesNotMatch(await text(page, '#mode-fly'), /160°|24 kt/);
  assert.equal(await page.locator('#fly-dials .dial').count(), 2);
  assert.equal(await page.locator('#fly-dials').isVisible(), true);
  await page.locator('#fly-end').click();
  assert.equal(await page.locator('#picture').isVisible(), true, 'the debrief has the picture');
  assert.match(await text(page, '#fly-lines'), /The wind was|The air was still/);
});

lesson.test('a bad heading is put back; keys are the bug’s alone', { at: AT }, async (page) => {
  await page.locator('#fly-start').click();
  await standStill(page);
  const { bug_deg } = await state(page);
  for (const typed of ['400', 'abc', '', '-5']) {
    await page.locator('#fly-bug-field').fill(typed);
    await page.keyboard.press('Enter');
    assert.equal((await state(page)).bug_deg, bug_deg, typed);
    assert.match(await page.locator('#fly-bug-field').inputValue(), /^\d{3}$/);
  }
  // Keys belong to the group of the bug alone.
  await page.locator('#fly-pause').focus();
  await page.keyboard.press('ArrowUp');
  assert.equal((await state(page)).bug_deg, bug_deg);
});

lesson.test('again, other choices, and into Explore with the own numbers', { at: AT }, async (page) => {
  await page.locator('#fly-start').click();
  await standStill(page);
  await wind(page, 0);
  await page.locator('#fly-bug-field').fill('118');
  await page.keyboard.press('Enter');
  await wind(page, 60);
  await page.locator('#fly-left').click();
  await wind(page, 68);
  await page.locator('#fly-bug-field').fill('230');
  await page.keyboard.press('Enter');
  await wind(page, 200);
  await page.locator('#fly-end').click();
  const link = await ask(page, 'flyLink');
  assert.match(link, /heading=118/);
  await page.locator('#fly-again').click();
  assert.equal((await state(page)).phase, 'flying');
  await page.locator('#fly-end').click();
  await page.locator('#fly-options').click();
  assert.equal(await page.locator('#fly-start').isVisible(), true);
  assert.equal((await live(page)).playing, false);
});

lesson.test('before the start the plans are not given away, and the choice of wind is kept', { at: AT }, async (page) => {
  assert.equal((await state(page)).t_s, -60);
  assert.equal(await page.locator('#picture .r-exact').count(), 0);
  assert.ok(await page.locator('#picture .r-wind').count() > 0);
  await page.locator('label:has(input[value="hidden"])').click();
  await drawn(page);
  assert.equal(await page.locator('#picture .r-wind').count(), 0);
  assert.match(await text(page, '#fly-hold'), /238°, left turns.*085°/);
});

lesson.test('nothing is cut off before, in and after the flight', { at: AT }, async (page) => {
  await fitsAt(page, WIDTHS);
  await page.locator('label:has(#fly-needles)').click();
  await page.locator('#fly-start').click();
  await standStill(page);
  await fitsAt(page, WIDTHS);
  await wind(page, 100);
  await page.locator('#fly-end').click();
  await fitsAt(page, WIDTHS);
});

lesson.test('where the arrival cannot be flown it says so', { at: '?webgl=false#wind=320/120&arrive=230&mode=fly' }, async (page) => {
  assert.equal(await page.locator('#fly-start').isDisabled(), true);
  assert.equal(await page.locator('#fly-why').isVisible(), true);
  assert.ok((await text(page, '#fly-why')).length > 20);
  assert.equal((await state(page)).phase, 'off');
});
