// The clock of the flight: plays at its speed, pauses, scrubs, steps; the strip and the live
// region say what happens. Most of it by a clock that the test winds, so that no machine is
// too slow for it.
import assert from 'node:assert/strict';
import { SMALL, ask, atRest, drawn, isReady, lessons, live, report, text } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

/** A wound clock costs by the frame: a whole flight is flown at the highest speed. */
const FASTEST = 30;

/** A page whose timers and frames run when the test says. @param {string} at */
const wound = (at = '', viewport = { width: 390, height: 700 }) => ({
  viewport,
  at: `?webgl=false${at}`,
  ready: null,
  /** @param {Page} page */
  before: (page) => page.clock.install({ time: 0 }),
});

/**
 * The page is there and at rest, its picture out of sight and so not drawn: frames are quick.
 * @param {Page} page
 */
async function start(page) {
  await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
  await page.clock.pauseAt(5 * 60000);
  await page.clock.runFor(1500);
}

/** Without scrolling to it. @param {Page} page @param {string} id */
const press = (page, id) => page.evaluate((it) => document.getElementById(it)?.click(), id);

/** Without scrolling to it either. @param {Page} page @param {number} times */
const setSpeed = (page, times) => page.locator('#speed').evaluate((select, to) => {
  /** @type {HTMLSelectElement} */ (select).value = String(to);
  select.dispatchEvent(new Event('change'));
}, times);

/** @param {number} deg @param {number} other */
const apart = (deg, other) => Math.abs(((deg - other + 540) % 360) - 180);

lesson.test('it plays at the chosen speed, pauses, and plays on', wound(), async (page) => {
  await start(page);
  const begin = (await live(page)).start_s;
  for (const speed of [1, 2, 4, 8, 16, 30]) {
    await setSpeed(page, speed);
    await ask(page, 'seek', begin);
    await press(page, 'play');
    await page.clock.runFor(200);
    const before = (await live(page)).t_s;
    await page.clock.runFor(1000);
    const after = await live(page);
    assert.equal(after.playing, true);
    assert.equal(after.speed, speed);
    assert.ok(Math.abs(after.t_s - before - speed) < 0.04 * speed, `${speed}×: ${after.t_s - before} s in 1 s`);
    await press(page, 'play');
    await page.clock.runFor(100);
    const paused = await live(page);
    assert.equal(paused.playing, false);
    await page.clock.runFor(300);
    assert.equal((await live(page)).t_s, paused.t_s, 'paused');
  }
});

lesson.test('the flight starts at its beginning, ends at its end, and stops there', wound(), async (page) => {
  await start(page);
  const { start_s, end_s, t_s } = await live(page);
  assert.ok(t_s > start_s && t_s < end_s, 'first it stands where heading and track part');
  await press(page, 'play');
  await page.clock.runFor(200);
  assert.ok((await live(page)).t_s <= start_s + 0.2 * 8, 'then it starts at the beginning');
  assert.equal(await page.locator('#play').getAttribute('aria-label'), 'Pause');
  await setSpeed(page, FASTEST);
  await page.clock.runFor(Math.ceil((end_s - start_s) / FASTEST) * 1000 + 1000);
  const now = await live(page);
  assert.equal(now.t_s, end_s);
  assert.equal(now.playing, false);
  assert.equal(await page.locator('#play').getAttribute('aria-label'), 'Play');
  await press(page, 'play');
  await page.clock.runFor(200);
  assert.ok((await live(page)).t_s <= start_s + 0.2 * FASTEST, 'again from the beginning');
});

lesson.test('a hidden page stands still and does not jump when it is seen again', wound(), async (page) => {
  await start(page);
  /** @param {boolean} hidden */
  const hide = (hidden) => page.evaluate((on) => {
    Object.defineProperty(document, 'hidden', { configurable: true, get: () => on });
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => (on ? 'hidden' : 'visible') });
    document.dispatchEvent(new Event('visibilitychange'));
  }, hidden);
  await press(page, 'play');
  await page.clock.runFor(1000);
  await hide(true);
  const gone = await live(page);
  await page.clock.runFor(60000);
  assert.equal((await live(page)).t_s, gone.t_s, 'nothing passes unseen');
  await hide(false);
  await page.clock.runFor(200);
  const back = await live(page);
  assert.equal(back.playing, true);
  assert.ok(back.t_s > gone.t_s && back.t_s - gone.t_s <= 0.2 * 8 + 0.2, `${back.t_s - gone.t_s} s`);
});

lesson.test('a frame that comes late counts a tenth of a second at most', wound(), async (page) => {
  await start(page);
  await press(page, 'play');
  await page.clock.runFor(500);
  const before = (await live(page)).t_s;
  await page.clock.fastForward(10000);
  await page.clock.runFor(50);
  const passed = (await live(page)).t_s - before;
  assert.ok(passed > 0 && passed <= (0.1 + 0.1) * 8, `${passed} s`);
});

for (const laps of [0, 2]) {
  lesson.test(`each event is announced once, in its order, with ${laps} laps`, wound(`#laps=${laps}`), async (page) => {
    await start(page);
    await page.evaluate(() => {
      /** @type {string[]} */
      const heard = [];
      Object.assign(globalThis, { heard });
      const region = /** @type {HTMLElement} */ (document.getElementById('live'));
      new MutationObserver(() => {
        if (region.textContent) heard.push(region.textContent);
      }).observe(region, { childList: true, characterData: true, subtree: true });
    });
    assert.equal(await page.locator('#live').getAttribute('role'), 'status');
    await setSpeed(page, FASTEST);
    await press(page, 'play');
    const { start_s, end_s } = await live(page);
    await page.clock.runFor(Math.ceil((end_s - start_s) / FASTEST) * 1000 + 2000);
    assert.equal((await live(page)).playing, false);
    const heard = await page.evaluate(() => /** @type {any} */ (globalThis).heard);
    assert.deepEqual(heard, (await report(page)).events.map((event) => event.label));
  });
}

/** What the strip says is what the session says. @param {Page} page */
async function stripAgrees(page) {
  const now = await live(page);
  const said = Object.fromEntries(await Promise.all(['heading', 'track', 'groundspeed', 'time', 'off', 'drift']
    .map(async (name) => [name, await text(page, `#strip-${name}`)])));
  assert.match(said.heading, /^\d{3}°$/);
  assert.match(said.track, /^\d{3}°$/);
  assert.ok(apart(parseInt(said.heading, 10), now.heading_deg) <= 0.501, said.heading);
  assert.ok(apart(parseInt(said.track, 10), now.track_deg) <= 0.501, said.track);
  assert.ok(Math.abs(parseInt(said.groundspeed, 10) - now.groundspeed_kt) <= 0.501, said.groundspeed);
  const time = /^(\u2212?)(\d+):(\d\d)$/.exec(said.time);
  assert.ok(time, said.time);
  const seconds = (Number(time[2]) * 60 + Number(time[3])) * (time[1] ? -1 : 1);
  assert.ok(Math.abs(seconds - now.t_s) <= 0.501, said.time);
  assert.ok(Math.abs(parseFloat(said.off) - Math.abs(now.cross_nm)) <= 0.0501, said.off);
  if (Math.abs(now.cross_nm) > 0.051) assert.match(said.off, now.cross_nm > 0 ? /inside/ : /outside/);
  assert.ok(Math.abs(parseInt(said.drift, 10) - Math.abs(now.drift_deg)) <= 0.501, said.drift);
  if (Math.abs(now.drift_deg) > 0.51) assert.match(said.drift, now.drift_deg > 0 ? /right/ : /left/);
  assert.equal((await text(page, '#clock')).split(' / ')[0], said.time);
}

lesson.test('scrubbing and stepping by event move the flight, and the strip says its numbers', { at: '?webgl=false' }, async (page) => {
  await stripAgrees(page);
  const { start_s, end_s } = await live(page);
  const scrub = page.locator('#scrub');
  const box = await scrub.boundingBox();
  assert.ok(box);
  for (const part of [0.1, 0.45, 0.8]) {
    await page.mouse.click(box.x + 11 + (box.width - 22) * part, box.y + box.height / 2);
    await drawn(page);
    const at = (await live(page)).t_s;
    assert.ok(Math.abs(at - (start_s + (end_s - start_s) * part)) < 2, `${part} of the way: ${at}, of ${start_s} to ${end_s}`);
    await stripAgrees(page);
    assert.equal(Number(await scrub.inputValue()).toFixed(1), at.toFixed(1));
  }
  const { events } = await report(page);
  assert.ok(events.length >= 5);
  await page.locator('#scrub').press('Home');
  await drawn(page);
  assert.equal((await live(page)).t_s, start_s);
  // The first event is the start itself.
  for (const event of events.filter((e) => e.at_s > start_s + 1e-6)) {
    await page.locator('#next').click();
    await drawn(page);
    assert.ok(Math.abs((await live(page)).t_s - event.at_s) < 1e-6, event.label);
    assert.equal((await live(page)).phase, event.name);
    assert.ok((await scrub.getAttribute('aria-valuetext'))?.includes(event.label), event.label);
    await stripAgrees(page);
  }
  await page.locator('#previous').click();
  assert.ok((await live(page)).t_s < end_s);
});

lesson.test('the slider keeps its place while it moves', { at: '?webgl=false' }, async (page) => {
  const scrub = page.locator('#scrub');
  const before = await scrub.boundingBox();
  await scrub.press('Home');
  await drawn(page);
  assert.deepEqual(await scrub.boundingBox(), before);
});

lesson.test('on the canvas, by the machine’s own clock, it flies: frames, time, then rest', { viewport: SMALL }, async (page) => {
  const frames = () => page.evaluate(() => globalThis.__lesson?.viewFrames() ?? 0);
  const before = await frames();
  await page.locator('#speed').selectOption('30');
  await page.locator('#play').click();
  await page.waitForFunction((was) => (globalThis.__lesson?.viewFrames() ?? 0) > was + 5, before);
  const now = await live(page);
  assert.ok(now.playing && now.t_s > now.start_s);
  await ask(page, 'seek', now.end_s - 10);
  await page.waitForFunction(() => {
    const s = globalThis.__lesson?.session.live();
    return s && !s.playing && s.t_s === s.end_s;
  });
  await drawn(page);
  await stripAgrees(page);
  const after = await frames();
  await drawn(page);
  assert.equal(await frames(), after, 'the last frame was the last');
});

lesson.test('with reduced motion the finished track stands, and the slider steps through it',
  { at: '?webgl=false', reducedMotion: 'reduce' }, async (page) => {
    const now = await live(page);
    assert.equal(now.t_s, now.end_s);
    assert.equal(now.playing, false);
    await atRest(page);
    await page.locator('#scrub').focus();
    await page.keyboard.press('ArrowLeft');
    await drawn(page);
    assert.ok(Math.abs((await live(page)).t_s - (now.end_s - 1)) < 1e-6);
    await page.keyboard.press('PageDown');
    await drawn(page);
    assert.ok(Math.abs((await live(page)).t_s - (now.end_s - 11)) < 1e-6);
    await stripAgrees(page);
    await page.locator('#f-wind-kt').fill('31');
    await page.locator('#f-wind-kt').press('Tab');
    await page.waitForFunction(() => {
      const s = globalThis.__lesson?.session.live();
      return s && globalThis.__lesson?.session.link() === 'wind=160/31' && s.t_s === s.end_s;
    });
    await page.locator('#play').click();
    await page.waitForFunction(() => globalThis.__lesson?.session.live().playing);
  });

lesson.test('nothing starts by itself', { at: '?webgl=false' }, async (page) => {
  assert.equal((await live(page)).playing, false);
  await page.reload();
  await isReady(page, 'core');
  assert.equal((await live(page)).playing, false);
});
