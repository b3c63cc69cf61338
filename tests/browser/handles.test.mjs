// The handles in the picture, by mouse and by touch, on the canvas and on the SVG:
// numbers, fields, words, table and address follow; one drag is one step to undo.
import assert from 'node:assert/strict';
import { finger, mouse } from './hands.mjs';
import {
  ARRIVAL, INBOUND, TURNS, WIND, addressSettled, ask, atRest, coreInNode, handlePlace, lessons, pictureBox, report, svgSays, text, view,
} from './lesson.mjs';

const lesson = await lessons();
const core = await coreInNode();

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('./hands.mjs').Place} Place */

/** Whole degrees from north, 1 to 360, of the way from one place on the screen to another. */
/** @param {Place} from @param {Place} to */
const bearing = (from, to) => {
  const deg = Math.round((Math.atan2(to.x - from.x, from.y - to.y) * 180) / Math.PI);
  return ((deg + 359) % 360 + 360) % 360 + 1;
};
/** @param {number} deg */
const reversed = (deg) => ((deg + 179) % 360) + 1;

/** Where the fix stands in the window. @param {Page} page */
async function fixPlace(page) {
  const [v, box] = [await view(page), await pictureBox(page)];
  return { x: box.x + v.width / 2 - v.x * v.px_per_nm, y: box.y + v.height / 2 + v.y * v.px_per_nm };
}

/** @param {Place} about @param {Place} at @param {number} deg Clockwise on the screen. */
function turned(about, at, deg) {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const [dx, dy] = [at.x - about.x, at.y - about.y];
  return { x: about.x + dx * c - dy * s, y: about.y + dx * s + dy * c };
}

/** What the student sees of the result. @param {Page} page */
const seen = async (page) => ({
  outcome: await text(page, '#happens'),
  table: await text(page, '#plans'),
  sum: await text(page, '#sum'),
  summary: await text(page, '#summary'),
});

/** Everything on the page says what the core says of the link. @param {Page} page @param {string} link */
async function agrees(page, link) {
  const truth = core.evaluate(link);
  const said = await seen(page);
  assert.ok(said.outcome.includes(truth.headline), `${truth.headline} in ${said.outcome}`);
  assert.equal(said.summary, truth.summary);
  assert.equal(await page.locator('#sum li').last().innerText(), truth.sum.at(-1));
  const flown = truth.plans.find((plan) => plan.flown);
  assert.ok(flown && (await text(page, '#plans tr.flown')).startsWith(flown.name));
  const [from, knots] = truth.fields.wind.split('/');
  assert.equal(Number(await page.locator('#f-wind-from').inputValue()), Number(from));
  assert.equal(await page.locator('#f-wind-kt').inputValue(), knots);
  assert.equal(Number(await page.locator('#f-inbound').inputValue()), Number(truth.fields.inbound));
  assert.equal(Number(await page.locator('#f-arrive').inputValue()), Number(truth.fields.arrive));
}

/**
 * Each handle: how far it is dragged, and the key that its new place means. `expected` is
 * worked out from the two places on the screen alone.
 */
const HANDLES = [
  {
    name: 'inbound course', which: INBOUND, key: 'inbound',
    /** @param {Place} fix @param {Place} from */
    to: (fix, from) => turned(fix, from, 24),
    /** @param {Place} fix @param {Place} to */
    expected: (fix, to) => String(reversed(bearing(fix, to))),
  },
  {
    name: 'arrival', which: ARRIVAL, key: 'arrive',
    /** @param {Place} fix @param {Place} from */
    to: (fix, from) => turned(fix, from, -17),
    /** @param {Place} fix @param {Place} to */
    expected: (fix, to) => String(reversed(bearing(fix, to))),
  },
  {
    name: 'wind', which: WIND, key: 'wind',
    /** @param {Place} _ @param {Place} from */
    to: (_, from) => ({ x: from.x + 14, y: from.y + 9 }),
    expected: null,
  },
];

/** @type {[how: string, wanted: import('./lesson.mjs').Wanted & import('./lesson.mjs').ContextOptions, hand: typeof mouse][]} */
const WAYS = [
  ['by mouse on the canvas', {}, mouse],
  ['by mouse on the SVG', { at: '?webgl=false' }, mouse],
  ['by touch on the canvas', { hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } }, finger],
  ['by touch on the SVG', { at: '?webgl=false', hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } }, finger],
];

for (const [how, wanted, hand] of WAYS) {
  lesson.test(`every handle is dragged ${how}`, wanted, async (page) => {
    const held = await hand(page);
    for (const handle of HANDLES) {
      const before = { ...(await seen(page)), link: await ask(page, 'link'), fields: (await report(page)).fields };
      const frames = await page.evaluate(() => globalThis.__lesson?.viewFrames() ?? 0);
      const fix = await fixPlace(page);
      const from = await handlePlace(page, handle.which);
      const to = handle.to(fix, from);
      await held.down(from);
      await held.move(from, to);

      // While it is held: the handle stays under the hand and the fields follow.
      await page.waitForFunction(([key, was]) =>
        globalThis.__lesson?.session.report().fields[key] !== was, [handle.key, before.fields[handle.key]]);
      const now = await handlePlace(page, handle.which);
      if (handle.which === WIND) {
        assert.ok(Math.hypot(now.x - to.x, now.y - to.y) < 5, `${handle.name} is under the hand`);
      } else {
        assert.ok(Math.abs(bearing(fix, now) - bearing(fix, to)) <= 1, `${handle.name} is under the hand`);
      }
      const value = (await report(page)).fields[handle.key];
      if (handle.expected) assert.equal(value, handle.expected(fix, to), handle.name);
      if (/SVG/.test(how)) await labelSays(page, handle.key, value);
      else assert.ok(await page.evaluate(() => globalThis.__lesson?.viewFrames() ?? 0) > frames, 'painted');

      await held.up();
      await addressSettled(page);
      const link = await ask(page, 'link');
      assert.ok(link.split('&').includes(`${handle.key}=${value}`), link);
      await agrees(page, link);
      const after = await seen(page);
      assert.notEqual(after.summary, before.summary);
      assert.notEqual(after.table, before.table);
      assert.notEqual(after.outcome, before.outcome);
      assert.equal(await page.evaluate(() => scrollY), 0, 'the page did not scroll away');

      // One drag is one step, back and forth.
      await page.locator('#undo').click();
      await page.waitForFunction((was) => globalThis.__lesson?.session.link() === was, before.link);
      await page.locator('#redo').click();
      await page.waitForFunction((was) => globalThis.__lesson?.session.link() === was, link);
      await page.locator('#undo').click();
      await addressSettled(page);
      await agrees(page, before.link);
    }
  });
}

for (const [how, wanted, hand] of WAYS) {
  lesson.test(`the turns are flipped ${how}: pressed, or dragged to the other side`, wanted, async (page) => {
    const held = await hand(page);
    await held.down(await handlePlace(page, TURNS));
    await held.up();
    await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'turns=right');
    await addressSettled(page);
    await agrees(page, 'turns=right');
    assert.equal(await page.locator('input[name="f-turns"][value="right"]').isChecked(), true);
    // Now it is on the other side of the course; back across it.
    const [from, fix] = [await handlePlace(page, TURNS), await fixPlace(page)];
    await held.down(from);
    await held.move(from, { x: 2 * fix.x - from.x, y: 2 * fix.y - from.y });
    await page.waitForFunction(() => globalThis.__lesson?.session.link() === '');
    await held.up();
    await addressSettled(page);
    await agrees(page, '');
    await page.locator('#undo').click();
    await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'turns=right');
  });
}

/** The number beside the handle. @param {Page} page @param {string} key @param {string} value */
async function labelSays(page, key, value) {
  const [first, knots] = value.split('/');
  const three = `${first.padStart(3, '0')}°`;
  const label = { wind: `wind ${three} / ${knots} kt`, inbound: `inbound ${three}`, arrive: `arriving ${three}` }[key];
  await svgSays(page, label ?? '?');
}

lesson.test('every handle is in the picture and can be taken within 22 px by a finger, 12 px by a mouse',
  { at: '?webgl=false' }, async (page) => {
    for (const width of [1280, 768, 390, 320]) {
      await page.setViewportSize({ width, height: 800 });
      await atRest(page);
      const box = await pictureBox(page);
      const missed = await page.evaluate(({ w, h, handles }) => {
        const session = globalThis.__lesson?.session;
        if (!session) throw new Error('no lesson');
        /** @type {string[]} */
        const found = [];
        for (const which of handles) {
          const at = session.handle(which);
          if (!at || at.x < 12 || at.y < 12 || at.x > w - 12 || at.y > h - 12) found.push(`${which} is not in the picture`);
          if (!at) continue;
          for (const [reach, coarse] of /** @type {[number, boolean][]} */ ([[11.5, false], [21.5, true]])) {
            for (let deg = 0; deg < 360; deg += 45) {
              const x = at.x + reach * Math.sin((deg * Math.PI) / 180);
              const y = at.y + reach * Math.cos((deg * Math.PI) / 180);
              if (session.hit(x, y, coarse) !== which) found.push(`${which}: ${reach} px at ${deg}°`);
            }
          }
        }
        return found;
      }, { w: box.width, h: box.height, handles: [WIND, INBOUND, ARRIVAL, TURNS] });
      assert.deepEqual(missed, [], `${width} px wide`);
    }
  });
