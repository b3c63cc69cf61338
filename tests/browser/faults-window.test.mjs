// What happens to the window and the machine around the page while a flight flies or a check runs: the
// canvas is lost, the page is hidden, clocks jump, the window turns, grows and shrinks, people go
// back and forward.
import assert from 'node:assert/strict';
import { give } from './course-page.mjs';
import { hide, saysNoNonsense, works, wound } from './faults.mjs';
import { SMALL, ask, atRest, drawn, isReady, lessons, live, pictureBox, text } from './lesson.mjs';
import { countColour, readPng } from './png.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

/** As the painter has it in core/theme.cpp. */
const FLOWN = 0x0072b2;

/** Starts the flight slowly enough to last. @param {Page} page */
async function fly(page) {
  await page.locator('#speed').selectOption('1');
  await page.locator('#play').click();
  await page.waitForFunction(() => globalThis.__lesson?.session.live().playing);
}

/** The flight goes on: its clock, the strip and the picture. @param {Page} page */
async function flies(page) {
  const { t_s } = await live(page);
  const frames = await page.evaluate(() => globalThis.__lesson?.frames() ?? 0);
  await page.waitForFunction(([was, drawn_before]) => {
    const now = globalThis.__lesson;
    return now && now.session.live().playing && now.session.live().t_s > was + 0.3 && now.frames() > drawn_before + 2;
  }, [t_s, frames]);
}

lesson.test('the canvas is lost and restored while a flight flies: it flies on, as SVG and as canvas', { viewport: SMALL }, async (page) => {
  await fly(page);
  await page.evaluate(() => {
    const canvas = /** @type {HTMLCanvasElement} */ (document.getElementById('canvas'));
    const gl = /** @type {WebGLRenderingContext | null} */ (canvas.getContext('webgl') ?? canvas.getContext('webgl2'));
    gl?.getExtension('WEBGL_lose_context')?.loseContext();
  });
  await page.locator('#picture > svg').waitFor();
  const still = await page.locator('#picture > svg').evaluate((svg) => svg.outerHTML);
  await page.waitForFunction((was) => document.querySelector('#picture canvas') !== null
    || (document.querySelector('#picture > svg')?.outerHTML ?? was) !== was, still);
  await page.waitForFunction(() => document.querySelector('#picture canvas') && !document.querySelector('#picture svg'));
  await flies(page);
  const painted = await page.evaluate(() => globalThis.__lesson?.viewFrames() ?? 0);
  await page.waitForFunction((was) => (globalThis.__lesson?.viewFrames() ?? 0) > was + 2, painted);
});

lesson.test('hidden for an hour in flight, and in a check: nothing passes, nothing jumps, it goes on',
  { at: '?webgl=false', ready: null, viewport: SMALL, before: wound }, async (page) => {
    await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
    await page.clock.runFor(1000);
    await page.evaluate(() => document.getElementById('play')?.click());
    await page.clock.runFor(1000);
    await hide(page, true);
    const gone = await live(page);
    const frames = await page.evaluate(() => globalThis.__lesson?.frames());
    await page.clock.fastForward('01:00:00');
    assert.equal((await live(page)).t_s, gone.t_s);
    assert.equal(await page.evaluate(() => globalThis.__lesson?.frames()), frames, 'not one frame unseen');
    await hide(page, false);
    await page.clock.runFor(300);
    const back = await live(page);
    assert.ok(back.playing && back.t_s > gone.t_s && back.t_s < gone.t_s + 30, `${back.t_s - gone.t_s} s`);
    await page.clock.resume();
    await page.evaluate(() => { location.hash = 'mode=practice'; });
    await page.locator('#practice-check').click();
    const asked = await text(page, '#practice-question');
    await hide(page, true);
    await page.clock.fastForward('01:00:00');
    await hide(page, false);
    assert.equal(await text(page, '#practice-question'), asked);
    await give(page, 'any');
  });

lesson.test('the system’s clock jumps back and forth by years: the flight flies at its pace, and practice goes on',
  { at: '?webgl=false', ready: null, viewport: SMALL, before: (page) => page.clock.install({ time: '2026-11-26T23:59:58' }) }, async (page) => {
    await isReady(page, 'core');
    await fly(page);
    for (const time of ['2001-01-01', '2126-01-01', '1969-12-31', '2026-11-27', '9999-12-31']) {
      const before = await live(page);
      await page.clock.setSystemTime(`${time}T00:00:00`);
      await flies(page);
      const passed = (await live(page)).t_s - before.t_s;
      assert.ok(passed > 0 && passed < 30, `${passed} s`);
    }
    await page.locator('#to-practice').click();
    await page.locator('#practice-check').click();
    for (const time of ['1969-12-31', '9999-12-31', '2026-11-27']) {
      await give(page, 'any');
      await page.clock.setSystemTime(`${time}T00:00:00`);
      await page.locator('#practice-next').click();
    }
    await saysNoNonsense(page);
    await page.locator('#practice-stop').click();
    await page.locator('#practice-go').click();
    await page.locator('#practice-question').waitFor();
    await saysNoNonsense(page);
  });

/** The size in CSS pixels and the ratio, as a browser tells them. @param {Page} page */
async function screenOf(page) {
  const devtools = await page.context().newCDPSession(page);
  return (/** @type {number} */ width, /** @type {number} */ height, /** @type {number} */ deviceScaleFactor) =>
    devtools.send('Emulation.setDeviceMetricsOverride', { width, height, deviceScaleFactor, mobile: false });
}

lesson.test('resized, turned, moved to a finer screen and zoomed to 200 % in flight: canvas and page follow, and it flies on', { viewport: SMALL }, async (page) => {
  const set = await screenOf(page);
  await fly(page);
  const seen = [];
  // A tablet, turned; a phone, turned; a finer screen; 1280 by 860 at 200 % zoom, and back.
  for (const [width, height, ratio] of [[768, 1024, 1], [1024, 768, 1], [390, 844, 1], [844, 390, 1], [800, 600, 1.5], [640, 430, 2], [1280, 860, 1]]) {
    await set(width, height, ratio);
    await page.waitForFunction(([w, dpr]) => {
      const canvas = document.querySelector('canvas');
      const picture = document.getElementById('picture');
      const diagram = globalThis.__lesson?.session.diagram();
      return innerWidth === w && canvas && picture && diagram && diagram.width === picture.clientWidth && diagram.height === picture.clientHeight
        && Math.abs(canvas.width - diagram.width * dpr) <= 1 && Math.abs(canvas.height - diagram.height * dpr) <= 1;
    }, [width, ratio]).catch(async () => assert.fail(`${width} px at ${ratio}: ${await page.evaluate(() => {
      const [canvas, picture] = [document.querySelector('canvas'), document.getElementById('picture')];
      const diagram = globalThis.__lesson?.session.diagram();
      return [innerWidth, devicePixelRatio, canvas?.width, canvas?.height, picture?.clientWidth, picture?.clientHeight, diagram?.width, diagram?.height].join(' ');
    })}`));
    await flies(page);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth > innerWidth), false, `${width} px: nothing sticks out`);
    if (ratio === 1) continue;
    await page.locator('#picture').scrollIntoViewIfNeeded();
    await drawn(page);
    seen.push(countColour(readPng(await page.screenshot({ clip: await pictureBox(page) })), FLOWN));
  }
  assert.deepEqual(seen.filter((count) => count < 100), [], `the flown track is painted every time: ${seen}`);
  await page.locator('#play').click();
  await atRest(page);
});

lesson.test('a storm of sizes while a handle is dragged leaves the drag whole', { at: '?webgl=false' }, async (page) => {
  const set = await screenOf(page);
  const at = await ask(page, 'handle', 1);
  const box = await pictureBox(page);
  await page.mouse.move(box.x + at.x, box.y + at.y);
  await page.mouse.down();
  for (let n = 0; n < 12; n += 1) {
    await set(700 + 40 * n, 500 + 30 * (n % 4), 1 + (n % 3) / 2);
    await page.mouse.move(box.x + at.x + 2 * n, box.y + at.y + n);
  }
  await page.mouse.up();
  await set(1280, 860, 1);
  assert.match(await ask(page, 'link'), /^(wind=\d+\/\d+)?$/, 'the wind alone');
  await atRest(page);
  await works(page, 31);
});

lesson.test('to another page and back, forward and back again: the scene, and a page that works', { viewport: SMALL, at: '#inbound=120&laps=2' }, async (page) => {
  await fly(page);
  for (let n = 0; n < 3; n += 1) {
    await page.goto(`${lesson.url}sources.html`);
    await page.goBack();
    await isReady(page, 'view');
    assert.match(await ask(page, 'link'), /^inbound=120&laps=2/);
    await page.goForward();
    await page.locator('h1').waitFor();
    await page.goBack();
    await isReady(page, 'view');
  }
  await works(page, 31);
  await page.locator('#play').click();
  await flies(page);
});

lesson.test('back and forward through modes while a flight flies and a check runs', { at: '?webgl=false' }, async (page) => {
  await fly(page);
  for (const mode of ['practice', 'fly', 'winds', 'card']) {
    await page.locator(`#to-${mode}`).click();
    await page.locator(`#mode-${mode}`).waitFor();
  }
  for (const mode of ['winds', 'fly', 'practice']) {
    await page.goBack();
    await page.locator(`#mode-${mode}`).waitFor();
  }
  await page.locator('#practice-check').click();
  const asked = await text(page, '#practice-question');
  await page.goBack();
  await page.locator('#mode-practice').waitFor({ state: 'hidden' });
  await page.goForward();
  await page.locator('#practice-question').waitFor();
  assert.equal(await text(page, '#practice-question'), asked);
  await give(page, 'any');
  await page.goBack();
  await page.locator('#view-plan').waitFor();
  await works(page, 31);
});
