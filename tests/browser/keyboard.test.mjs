// The page by keyboard alone.
import assert from 'node:assert/strict';
import { addressSettled, ask, drawn, fieldSays, lessons, live, report, text, unfold } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

/** A name for what has the focus, and whether it shows. @param {Page} page */
const focus = (page) => page.evaluate(() => {
  const el = document.activeElement;
  if (!el || el === document.body || el === document.documentElement) return null;
  /** The focus may be drawn on the box around, or the segment beside, what has it. */
  const rings = [el, el.closest('.box'), el.closest('.segments'), el.closest('label')];
  const box = el.getBoundingClientRect();
  return {
    name: el.id || `${el.tagName.toLowerCase()}:${el.getAttribute('name') ?? el.getAttribute('aria-label') ?? el.textContent?.trim()}`,
    ring: rings.some((ring) => {
      if (!ring) return false;
      const style = getComputedStyle(ring);
      return style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
    }),
    in_window: box.bottom > 0 && box.top < innerHeight && box.width > 0,
    in_picture: el.closest('#picture') !== null,
  };
});

/** Everything that a person can use, in the order of the page; of radios the chosen one. @param {Page} page */
const controls = (page) => page.evaluate(() => {
  const found = [...document.querySelectorAll('a[href], button, input, select, summary, textarea')].filter((el) => {
    const input = /** @type {HTMLInputElement} */ (el);
    if (input.disabled || input.tabIndex < 0 || el.closest('fieldset:disabled') || !el.checkVisibility()) return false;
    return input.type !== 'radio' || input.checked;
  });
  return found.map((el) => el.id
    || `${el.tagName.toLowerCase()}:${el.getAttribute('name') ?? el.getAttribute('aria-label') ?? el.textContent?.trim()}`);
});

lesson.test('Tab goes through every control in the order of the page, seen, and out again', {}, async (page) => {
  await page.locator('#zoom-in').focus();
  await page.locator('#more-plans').click();
  await unfold(page);
  // Something to undo, so that Undo is on the way too.
  await page.locator('#f-intercept').fill('35');
  await addressSettled(page);
  const expected = await controls(page);
  assert.ok(expected.length > 60, `${expected.length} controls`);
  await page.locator('.skip').focus();
  const met = [(await focus(page))?.name];
  for (;;) {
    await page.keyboard.press('Tab');
    const now = await focus(page);
    if (!now || now.name === met[0]) break;
    met.push(now.name);
    assert.ok(now.ring, `${now.name} shows that it has the focus`);
    assert.ok(now.in_window, `${now.name} is brought into view`);
    assert.ok(!now.in_picture, 'the picture takes no focus');
    assert.ok(met.length <= expected.length, `no trap: ${met.slice(-3)}`);
  }
  assert.deepEqual(met, expected);
  // And backwards.
  await page.locator('#scrub').focus();
  await page.keyboard.press('Shift+Tab');
  assert.equal((await focus(page))?.name, 'next');
});

lesson.test('the skip link leads past the picture, and leaves the scene alone', { at: '?webgl=false#inbound=100' }, async (page) => {
  await page.keyboard.press('Tab');
  const skip = page.locator('.skip');
  assert.equal(await skip.evaluate((el) => el === document.activeElement), true);
  const box = await skip.boundingBox();
  assert.ok(box && box.y >= 0, 'it is seen when it has the focus');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.getElementById('column')?.contains(document.activeElement)), true);
  await drawn(page);
  assert.equal(await ask(page, 'link'), 'inbound=100', 'it is not taken for a scene');
  assert.equal(new URL(page.url()).hash, '#inbound=100');
  assert.equal(await page.locator('#problems li').count(), 0);
});

/** Tab until this control has the focus. @param {Page} page @param {string} id */
async function tabTo(page, id) {
  for (let i = 0; i < 90; ++i) {
    if ((await focus(page))?.name === id) return;
    await page.keyboard.press('Tab');
  }
  assert.fail(`Tab never comes to ${id}`);
}

lesson.test('the main job without a mouse: wind, turns, play, step, another plan, undo', {}, async (page) => {
  const before = await report(page);

  await tabTo(page, 'f-wind-from');
  await page.keyboard.type('230');
  await page.keyboard.press('Tab');
  await tabTo(page, 'f-wind-kt');
  await page.keyboard.press('ArrowUp');
  await addressSettled(page);
  assert.equal(await ask(page, 'link'), 'wind=230/25');
  assert.notEqual(await text(page, '#happens'), before.outcome);

  await page.keyboard.press('Shift+Tab');
  await tabTo(page, 'input:f-turns');
  await page.keyboard.press('ArrowRight');
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'turns=right&wind=230/25');

  await tabTo(page, 'input:plan');
  await page.keyboard.press('ArrowDown');
  await page.waitForFunction(() => globalThis.__lesson?.session.link().includes('rule=track-30'));
  await drawn(page);
  assert.equal((await focus(page))?.name, 'input:plan', 'the focus stays in the table');
  await page.keyboard.press('ArrowDown');
  await page.waitForFunction(() => globalThis.__lesson?.session.link().includes('rule=drift-triple'));

  await tabTo(page, 'play');
  await page.keyboard.press('Space');
  await page.waitForFunction(() => {
    const now = globalThis.__lesson?.session.live();
    return now?.playing && now.t_s > now.start_s;
  });
  await page.keyboard.press('Space');
  await page.waitForFunction(() => !globalThis.__lesson?.session.live().playing);
  await tabTo(page, 'next');
  await page.keyboard.press('Enter');
  const { events } = await report(page);
  const at = (await live(page)).t_s;
  assert.ok(events.some((event) => Math.abs(event.at_s - at) < 1e-6), 'at an event');

  await tabTo(page, 'undo');
  for (const link of ['rule=track-30', 'turns=right&wind=230/25']) {
    await page.keyboard.press('Enter');
    await page.waitForFunction((part) => globalThis.__lesson?.session.link().includes(part), link);
  }
  for (let i = 0; i < 3; ++i) await page.keyboard.press('Enter');
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === '');
  await fieldSays(page, 'wind-from', '160');
  assert.equal((await focus(page))?.name, 'redo', 'a button gone dead hands the focus on');
});

lesson.test('letters and Backspace reach the fields with the canvas there', {}, async (page) => {
  const box = await page.locator('#picture').boundingBox();
  assert.ok(box);
  // A press on the picture first: its window system must not keep the keys.
  await page.mouse.click(box.x + 20, box.y + box.height - 20);
  await unfold(page);
  const field = page.locator('#f-variation');
  await field.focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('12Wx');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Home');
  await page.keyboard.press('Delete');
  assert.equal(await field.inputValue(), '2W');
  await page.keyboard.press('Enter');
  await addressSettled(page);
  assert.equal(await ask(page, 'link'), 'variation=2W');
});

lesson.test('arrow keys, Space and Page Down scroll the page where no control wants them',
  { viewport: { width: 1280, height: 400 } }, async (page) => {
    const box = await page.locator('#picture').boundingBox();
    assert.ok(box);
    await page.mouse.click(box.x + 20, box.y + 200);
    let before = 0;
    // Each on from where the one before came to rest, or is still going.
    for (const key of ['ArrowDown', 'PageDown', 'Space']) {
      await page.keyboard.press(key);
      await page.waitForFunction((was) => scrollY > was + 20, before).catch(() => assert.fail(`${key} does not scroll`));
      before = await page.evaluate(() => new Promise((done) => {
        let last = -1;
        const look = () => {
          if (scrollY === last) done(scrollY);
          else setTimeout(look, 150);
          last = scrollY;
        };
        look();
      }));
    }
  });

lesson.test('every layer is switched by Space, and its marks go from the picture', { at: '?webgl=false#rule=track-30&heading=110' }, async (page) => {
  /** What each switches, by the roles in core/theme.cpp. @type {Record<string, string>} */
  const roles = { no_correction: 'no-correction', rule: 'rule', exact: 'exact', own: 'own', air_path: 'air-path',
    pattern: 'pattern', marks: 'tick', streaks: 'streak', miss: 'miss' };
  const boxes = await page.locator('#layers input').all();
  assert.equal(boxes.length, Object.keys(roles).length);
  for (const box of boxes) {
    const name = String(await box.getAttribute('value'));
    const marks = () => page.locator(`#picture .r-${roles[name]}`).count();
    const before = await marks();
    // Here the own plan is the one that is flown, and so no second line.
    assert.equal(before > 0, name !== 'own', name);
    await box.focus();
    await page.keyboard.press('Space');
    await drawn(page);
    assert.equal(await box.isChecked(), false);
    assert.equal((await ask(page, 'layers'))[name], false);
    assert.equal(await marks(), 0, name);
    await page.keyboard.press('Space');
    await drawn(page);
    assert.equal(await marks(), before, name);
  }
});
