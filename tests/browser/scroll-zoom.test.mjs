// The wheel and the swipe belong to the page; with a modifier, or with two fingers, to the
// picture.
import assert from 'node:assert/strict';
import { controlWheel, finger, pinch, swipe } from './hands.mjs';
import { ARRIVAL, ask, drawn, handlePlace, lessons, pictureBox, svgSays, view } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

const PHONE = { hasTouch: true, isMobile: true, viewport: { width: 390, height: 700 } };

/** A place in the picture where there is no handle and no track. @param {Page} page */
async function emptyPlace(page) {
  const box = await pictureBox(page);
  for (const [x, y] of [[0.5, 0.9], [0.1, 0.9], [0.9, 0.9], [0.5, 0.1]]) {
    const at = { x: box.width * x, y: box.height * y };
    if (!await ask(page, 'hit', at.x, at.y, true)) return { x: Math.round(box.x + at.x), y: Math.round(box.y + at.y) };
  }
  throw new Error('no empty place');
}

/** @param {Page} page */
const pageZoom = (page) => page.evaluate(() => visualViewport?.scale);

for (const at of ['', '?webgl=false']) {
  const how = at ? 'on the SVG' : 'on the canvas';

  lesson.test(`the wheel scrolls the page, with Control it zooms the picture, ${how}`,
    { at, viewport: { width: 1280, height: 600 } }, async (page) => {
      const place = await emptyPlace(page);
      const before = await view(page);
      await page.mouse.move(place.x, place.y);
      await page.mouse.wheel(0, 120);
      await page.waitForFunction(() => scrollY > 100);
      assert.equal((await view(page)).px_per_nm, before.px_per_nm);
      await page.evaluate(() => scrollTo({ top: 0, behavior: 'instant' }));
      await page.waitForFunction(() => scrollY === 0);

      const box = await pictureBox(page);
      const under = (/** @type {typeof before} */ v) => ({
        x: v.x + (place.x - box.x - v.width / 2) / v.px_per_nm,
        y: v.y - (place.y - box.y - v.height / 2) / v.px_per_nm,
      });
      await controlWheel(page, place, -200);
      await page.waitForFunction((was) =>
        (globalThis.__lesson?.session.diagram().px_per_nm ?? 0) > was * 1.2, before.px_per_nm);
      const after = await view(page);
      assert.ok(Math.hypot(under(after).x - under(before).x, under(after).y - under(before).y) * after.px_per_nm < 1,
        'about the pointer');
      assert.equal(await page.evaluate(() => scrollY), 0);
      assert.equal(await pageZoom(page), 1);
      await page.locator('#fit').click();
      await drawn(page);
      assert.deepEqual(await view(page), before);
    });

  lesson.test(`two fingers zoom the picture, a swipe scrolls the page, ${how}`, { at, ...PHONE }, async (page) => {
    const before = await view(page);
    const box = await pictureBox(page);
    await pinch(page, { x: box.x + box.width / 2, y: box.y + box.height / 2 }, 80, 200);
    await page.waitForFunction((was) =>
      (globalThis.__lesson?.session.diagram().px_per_nm ?? 0) > was * 1.8, before.px_per_nm)
      .catch(() => assert.fail('the picture does not zoom'));
    const zoomed = await view(page);
    assert.ok(zoomed.px_per_nm < before.px_per_nm * 2.8, 'as far as the fingers went');
    assert.equal(await pageZoom(page), 1, 'the page itself does not');
    assert.equal(await page.evaluate(() => scrollY), 0);

    const place = await emptyPlace(page);
    await swipe(page, place, { x: place.x + 6, y: place.y - 220 });
    await page.waitForFunction(() => scrollY > 60).catch(() => assert.fail('the page does not scroll'));
    assert.equal((await view(page)).px_per_nm, zoomed.px_per_nm);
  });
}

lesson.test('a sideways drag by one finger moves the picture', PHONE, async (page) => {
  const before = await view(page);
  const place = await emptyPlace(page);
  await swipe(page, place, { x: place.x - 90, y: place.y + 4 });
  await page.waitForFunction((was) => (globalThis.__lesson?.session.diagram().centre_x ?? 0) > was, before.x);
  const after = await view(page);
  assert.ok(Math.abs((after.x - before.x) * before.px_per_nm - 90) < 25, 'by as much');
  assert.equal(await page.evaluate(() => scrollY), 0);
});

lesson.test('a tap on the track tells what is there', { at: '?webgl=false', ...PHONE }, async (page) => {
  await ask(page, 'seek', 20);
  const live = await ask(page, 'live');
  await ask(page, 'seek', live.end_s);
  const [v, box] = [await view(page), await pictureBox(page)];
  const hand = await finger(page);
  await hand.down({ x: box.x + v.width / 2 + (live.x_nm - v.x) * v.px_per_nm, y: box.y + v.height / 2 - (live.y_nm - v.y) * v.px_per_nm });
  await hand.up();
  await svgSays(page, '0:20');
});

lesson.test('the zoom buttons zoom about the middle, and fit brings all back', {}, async (page) => {
  const before = await view(page);
  await page.locator('#zoom-in').click();
  await page.locator('#zoom-in').click();
  const near = await view(page);
  assert.ok(near.px_per_nm > before.px_per_nm * 1.5);
  assert.ok(Math.hypot(near.x - before.x, near.y - before.y) < 1e-9);
  await page.locator('#zoom-out').click();
  assert.ok((await view(page)).px_per_nm < near.px_per_nm);
  await page.locator('#fit').click();
  assert.deepEqual(await view(page), before);
});

lesson.test('a handle held near the edge keeps its drag beyond the picture', { at: '?webgl=false' }, async (page) => {
  const from = await handlePlace(page, ARRIVAL);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  const box = await pictureBox(page);
  await page.mouse.move(from.x, box.y + box.height + 60, { steps: 6 });
  const link = await ask(page, 'link');
  assert.match(link, /^arrive=/);
  await page.mouse.move(from.x + 200, box.y + box.height + 60, { steps: 3 });
  assert.notEqual(await ask(page, 'link'), link);
  await page.mouse.up();
  await page.mouse.move(from.x, from.y, { steps: 3 });
  const let_go = await ask(page, 'link');
  await page.mouse.move(from.x + 50, from.y, { steps: 3 });
  assert.equal(await ask(page, 'link'), let_go);
});
