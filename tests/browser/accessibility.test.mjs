// What a machine can check of accessibility: axe's rules, names, reflow, text spacing, sizes
// of targets.
import assert from 'node:assert/strict';
import { axeFindsNothing, fitsAt, spacedOut, tooSmall, violations, WIDTHS } from './access.mjs';
import { ARRIVAL, INBOUND, TURNS, WIND, addressSettled, ask, drawn, enter, lessons, openView, report, unfold } from './lesson.mjs';
import { readPng } from './png.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

const WIDE = { width: 1280, height: 860 };
const PHONE = { width: 390, height: 844 };

/** @param {Page} page */
async function unfolded(page) {
  await unfold(page);
  if (!await page.locator('#plans-more').isVisible()) await page.locator('#more-plans').click();
  await drawn(page);
}

lesson.test('axe finds nothing on a wide page', { viewport: WIDE }, async (page) => {
  await axeFindsNothing(page, 'as it opens');
});

lesson.test('axe finds nothing on a phone, all unfolded', { viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
  await unfolded(page);
  await axeFindsNothing(page, 'unfolded');
});

lesson.test('axe does find what is wrong', { at: '?webgl=false' }, async (page) => {
  await page.evaluate(() => document.querySelector('main')?.append(document.createElement('button')));
  assert.match((await violations(page)).join('\n'), /^button-name: main > button: /m);
});

for (const at of ['', '?webgl=false']) {
  lesson.test(`the ${at ? 'SVG' : 'canvas'} is an image described by the summary, which follows`, { at }, async (page) => {
    /** @param {string} words */
    const says = (words) => page.waitForFunction((want) => {
      const picture = document.getElementById('picture');
      const ids = picture?.getAttribute('aria-describedby')?.split(' ') ?? [];
      return picture?.role === 'img' && picture.ariaLabel && ids.map((id) => document.getElementById(id)?.textContent).join(' ').includes(want);
    }, words).catch(() => assert.fail(`the picture is not described by “${words}”`));
    await says((await report(page)).summary);
    await enter(page, 'wind-from', '200');
    await addressSettled(page);
    assert.match((await report(page)).summary, /200/);
    await says((await report(page)).summary);
    // And the layers that a view switches on.
    await openView(page, 'entry');
    await says((await report(page)).sector ?? 'a reason');
    await openView(page, 'limits');
    await says('The protected area is drawn around it');
    await openView(page, 'plan');
    await page.waitForFunction(() => document.getElementById('picture-words')?.textContent === '');
  });
}

/** Long numbers, all unfolded, every field that can be wrong wrong. @param {Page} page */
async function full(page) {
  await unfolded(page);
  await page.evaluate(() => {
    location.hash = 'inbound=300.25&arrive=122.75&wind=222.25/44.5&altitude=12500&laps=2&bank=27.5&heading=284.5&time=1:45&leg=1:15&variation=12.5W';
  });
  await page.waitForFunction(() => globalThis.__lesson?.session.link().includes('laps=2'));
  await enter(page, 'bank', '99');
  await enter(page, 'leg', 'some time');
  await enter(page, 'wind-kt', '999');
  await drawn(page);
}

lesson.test('nothing is cut off or sticks out, at any width', { at: '?webgl=false' }, async (page) => {
  await fitsAt(page, WIDTHS);
});

lesson.test('nor with long numbers, errors, and all unfolded', { at: '?webgl=false' }, async (page) => {
  await full(page);
  await fitsAt(page, WIDTHS);
});

lesson.test('nor with wider text spacing', { at: '?webgl=false' }, async (page) => {
  await spacedOut(page);
  await fitsAt(page, [320, 768, 1280]);
  await unfolded(page);
  await fitsAt(page, [320, 768, 1280]);
});

lesson.test('every target is 24 px or more', { at: '?webgl=false' }, async (page) => {
  await full(page);
  assert.deepEqual(await tooSmall(page, 'a[href], button, input, select, summary', 24), []);
});

lesson.test('by touch the clock, the steps and the choices are 44 px or more',
  { at: '?webgl=false', viewport: PHONE, hasTouch: true, isMobile: true }, async (page) => {
    await unfolded(page);
    assert.deepEqual(await tooSmall(page, 'button, input, select, summary', 44), []);
  });

lesson.test('what the picture can be taken hold of by is 24 px or more, by touch 44', { at: '?webgl=false' }, async (page) => {
  for (const which of [WIND, INBOUND, ARRIVAL, TURNS]) {
    const at = await ask(page, 'handle', which);
    for (const [reach, coarse] of /** @type {const} */ ([[11.9, false], [21.9, true]])) {
      for (const [x, y] of [[0, 1], [1, 0], [0, -1], [-1, 0]]) {
        assert.equal(await ask(page, 'hit', at.x + reach * x, at.y + reach * y, coarse), which, `handle ${which}, ${reach} px to ${x}, ${y}`);
      }
    }
  }
});

for (const at of ['', '?webgl=false']) {
  lesson.test(`forced colours: the ${at ? 'SVG' : 'canvas'} has two, and one mode is marked`, { at, viewport: PHONE, forcedColors: 'active' }, async (page) => {
    for (const [colorScheme, paper] of /** @type {const} */ ([['light', 255], ['dark', 0]])) {
      await page.emulateMedia({ colorScheme });
      await drawn(page);
      const picture = readPng(await page.locator('#picture').screenshot());
      let ink = 0;
      for (let y = 2; y < picture.height - 2; y += 1) {
        for (let x = 2; x < picture.width - 2; x += 1) {
          const pixel = picture.at(x, y);
          assert.ok(Math.max(...pixel) - Math.min(...pixel) <= 2, `${pixel} at ${x}, ${y} has a hue`);
          if (Math.abs(pixel[0] - paper) > 250) ink += 1;
        }
      }
      assert.equal(picture.at(3, picture.height >> 1)[0], paper);
      assert.ok(ink > 1000, `${ink} pixels of ink`);
    }
    const marked = await page.locator('.modes a').evaluateAll((links) => links.filter((link) =>
      getComputedStyle(link).borderBottomColor !== getComputedStyle(document.documentElement).backgroundColor).map((link) => link.id));
    assert.deepEqual(marked, ['to-explore']);
  });
}

lesson.test('the page has one main heading, landmarks, and a language', { at: '?webgl=false' }, async (page) => {
  assert.equal(await page.locator('html').getAttribute('lang'), 'en');
  assert.equal(await page.locator('h1').count(), 1);
  for (const role of /** @type {const} */ (['banner', 'main', 'contentinfo'])) assert.equal(await page.getByRole(role).count(), 1, role);
  assert.equal(await page.getByRole('table').count(), 1);
  assert.ok(await page.getByRole('rowheader').count() >= 5);
});
