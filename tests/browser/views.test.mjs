// The views of the right-hand column: chosen by mouse, keyboard and address; each complete by
// itself, and none in need of what the core does not say.
import assert from 'node:assert/strict';
import { axeFindsNothing, fitsAt, spacedOut, tooSmall, WIDTHS } from './access.mjs';
import {
  VIEWS, addressSettled, ask, atRest, drawn, enter, fieldSays, isReady, lessons, openView, report, text, unfold, viewIsOpen,
} from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

/** Names of the panels that are seen, and what the tabs say of it. @param {Page} page */
const shown = (page) => page.evaluate(() => ({
  panels: [...document.querySelectorAll('[role="tabpanel"]')].filter((el) => el.checkVisibility()).map((el) => el.id.replace('view-', '')),
  selected: [...document.querySelectorAll('[role="tab"][aria-selected="true"]')].map((el) => el.id.replace('tab-', '')),
  reachable: [...document.querySelectorAll('[role="tab"]')].filter((el) => /** @type {HTMLElement} */ (el).tabIndex === 0).map((el) => el.id.replace('tab-', '')),
  focused: document.activeElement?.id,
}));

/** @param {Page} page @param {string} view */
async function isOpen(page, view) {
  await viewIsOpen(page, view);
  const now = await shown(page);
  assert.deepEqual([now.panels, now.selected, now.reachable], [[view], [view], [view]]);
}

/** A scene in which every view has much to say. */
const FULL = 'inbound=300.25&arrive=122.75&wind=222.25/44.5&altitude=12500&laps=3&bank=27.5&heading=284.5&time=1:45'
  + '&leg=1:15&variation=12.5W&station=10to&aid=vor&fix=TARNE&efc=18:45&saw=-0.3&took=1:10&later=250/30&roll=5';

/** The same without numbers so long that wide letters would not fit their boxes. */
const PLAIN = 'wind=222/44&laps=3&station=10to&fix=TARNE&efc=18:45&saw=-0.3&took=1:10&later=250/30&roll=5';

lesson.test('a click on a tab opens its view alone; the picture, the clock and the outcome stay', { at: '?webgl=false' }, async (page) => {
  await isOpen(page, 'plan');
  const { headline } = await report(page);
  for (const view of [...VIEWS.slice(1), 'plan']) {
    await openView(page, view);
    await isOpen(page, view);
    for (const id of ['picture', 'play', 'strip-heading', 'happens']) assert.equal(await page.locator(`#${id}`).isVisible(), true, `${id} in ${view}`);
    assert.ok((await text(page, '#happens')).includes(headline), view);
    assert.ok((await text(page, `#view-${view}`)).length > 40, `${view} has something to say`);
    assert.equal(await page.getByRole('tabpanel').getAttribute('aria-labelledby'), `tab-${view}`);
  }
  assert.equal(await ask(page, 'link'), '', 'a view is not part of the scene');
});

lesson.test('arrows, Home and End go along the tabs and round; Tab goes into the view', { at: '?webgl=false' }, async (page) => {
  await page.locator('#tab-plan').focus();
  for (const view of [...VIEWS.slice(1), 'plan']) {
    await page.keyboard.press('ArrowRight');
    await isOpen(page, view);
    assert.equal((await shown(page)).focused, `tab-${view}`);
  }
  await page.keyboard.press('ArrowLeft');
  await isOpen(page, 'limits');
  await page.keyboard.press('Home');
  await isOpen(page, 'plan');
  await page.keyboard.press('End');
  await isOpen(page, 'limits');
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement?.closest('[role="tabpanel"]')?.id), 'view-limits');
  await page.keyboard.press('Shift+Tab');
  assert.equal((await shown(page)).focused, 'tab-limits');
});

lesson.test('the address opens a view, keeps it beside the scene, and forgets the first one', { at: '?webgl=false&view=wind#inbound=100&view=entry' }, async (page) => {
  await isOpen(page, 'entry');
  assert.equal(await ask(page, 'link'), 'inbound=100');
  assert.equal(await page.locator('#problems li').count(), 0, 'it is not a key of the scene');
  const length = await page.evaluate(() => history.length);
  await openView(page, 'laps');
  await addressSettled(page);
  assert.equal(new URL(page.url()).hash, '#inbound=100&view=laps');
  assert.equal(new URL(page.url()).search, '?webgl=false');
  await enter(page, 'laps', '2');
  await addressSettled(page);
  assert.equal(new URL(page.url()).hash, '#inbound=100&laps=2&view=laps');
  assert.equal(await page.evaluate(() => history.length), length, 'nothing to go back through');
  await page.reload();
  await isReady(page, 'core');
  await isOpen(page, 'laps');
  assert.equal(await ask(page, 'link'), 'inbound=100&laps=2');
  await openView(page, 'plan');
  assert.equal(new URL(page.url()).hash, '#inbound=100&laps=2');
});

lesson.test('going back to another address opens its view; an unknown one is the first', { at: '?webgl=false#view=miss' }, async (page) => {
  await isOpen(page, 'miss');
  await page.evaluate(() => { location.hash = 'view=nothing&wind=200/30'; });
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=200/30');
  await isOpen(page, 'plan');
  assert.equal(await page.locator('#problems li').count(), 0);
  await page.goBack();
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === '');
  await isOpen(page, 'miss');
});

lesson.test('a field that two views have is one field: it keeps its text, its problem and its place', { at: '?webgl=false' }, async (page) => {
  /** @param {string} id */
  const at = (id) => page.locator(`#f-${id}`).evaluate((el) => ({
    view: el.closest('[role="tabpanel"]')?.id, before: el.closest('.field')?.previousElementSibling?.id }));
  const home = await at('wind-kt');
  assert.equal(home.view, 'view-plan');
  await openView(page, 'wind');
  assert.equal((await at('wind-kt')).view, 'view-wind');
  await enter(page, 'wind-kt', '31');
  await addressSettled(page);
  await enter(page, 'wind-kt', '999');
  await page.locator('#problem-wind-kt').waitFor({ state: 'visible' });
  await openView(page, 'plan');
  assert.deepEqual(await at('wind-kt'), home);
  assert.equal(await page.locator('#problem-wind-kt').isVisible(), true);
  await enter(page, 'wind-kt', '31');
  await page.locator('#problem-wind-kt').waitFor({ state: 'hidden' });
  await fieldSays(page, 'wind-kt', '31');
  for (const view of VIEWS) await openView(page, view);
  await openView(page, 'plan');
  assert.deepEqual(await at('wind-kt'), home);
  assert.equal(await page.locator('[data-borrow]:not(:empty)').count(), 0, 'all that was lent is back');
});

/** Parts of the report that came after the first form of the page. */
const LATER = ['book', 'sector', 'entries', 'sector_boundary_deg', 'station', 'laps', 'multiples', 'practice', 'limits',
  'area', 'displays', 'roll', 'wind_model', 'inferred', 'clearance', 'timing'];

for (const missing of [undefined, null]) {
  lesson.test(`a part that is ${missing} leaves its place empty and nothing else`, { at: `?webgl=false#${FULL}` }, async (page) => {
    await page.evaluate(([parts, none]) => {
      const session = /** @type {any} */ (globalThis.__lesson?.session);
      const { report: whole, live: now } = session;
      session.report = () => ({ ...whole(), ...Object.fromEntries(/** @type {string[]} */ (parts).map((name) => [name, none])) });
      session.live = () => Object.defineProperty({ ...now() }, 'needle', { value: none });
      const core = /** @type {any} */ (globalThis.__lesson?.core);
      core.readClearance = undefined;
      core.readWindReport = undefined;
    }, /** @type {const} */ ([LATER, missing]));
    for (const view of VIEWS) {
      await openView(page, view);
      await isOpen(page, view);
      const empty = await page.evaluate(() => [...document.querySelectorAll('section')].filter((el) => el.checkVisibility()
        && !el.querySelector('p, li, table, input, textarea, svg')).map((el) => el.textContent?.trim()));
      assert.deepEqual(empty, [], `no heading over nothing in ${view}`);
    }
    await openView(page, 'clearance');
    await page.locator('#clearance-said').fill('hold west of TARNE on the 265 radial');
    await openView(page, 'wind');
    await page.locator('#wind-said').fill('24018KT');
    await enter(page, 'wind-kt', '12');
    await page.waitForFunction(() => globalThis.__lesson?.session.link().includes('/12'));
    await axeFindsNothing(page, 'with parts missing');
  });
}

lesson.test('a view switches its layers of the picture on while it is open, where there are such', { at: '?webgl=false' }, async (page) => {
  await page.evaluate(() => {
    const session = /** @type {any} */ (globalThis.__lesson?.session);
    const { layers, layer } = session;
    const on = /** @type {Record<string, boolean>} */ ({ sectors: false, area: false });
    session.layers = () => ({ ...layers(), ...on });
    session.layer = (/** @type {string} */ name, /** @type {boolean} */ state) => {
      if (name in on) on[name] = state;
      else if (!(name in layers())) throw new Error(`no layer ${name}`);
      return layer(name, state);
    };
    Object.assign(globalThis, { on });
  });
  const on = () => page.evaluate(() => ({ .../** @type {any} */ (globalThis).on }));
  await openView(page, 'entry');
  assert.deepEqual(await on(), { sectors: true, area: false });
  await openView(page, 'limits');
  assert.deepEqual(await on(), { sectors: false, area: true });
  await openView(page, 'plan');
  assert.deepEqual(await on(), { sectors: false, area: false });
});

/** What opens in a view, opened. @param {Page} page */
async function unfolded(page) {
  await unfold(page);
  await drawn(page);
}

for (const view of VIEWS) {
  lesson.test(`in ${view} nothing is cut off or sticks out`, { at: `?webgl=false#${FULL}&view=${view}` }, async (page) => {
    await unfolded(page);
    await fitsAt(page, WIDTHS);
    assert.deepEqual(await tooSmall(page, 'a[href], button, input, select, summary, textarea', 24), []);
    await page.evaluate((to) => { location.hash = to; }, `${PLAIN}&view=${view}`);
    await page.waitForFunction(() => globalThis.__lesson?.session.link().includes('wind=222/44'));
    await spacedOut(page);
    await fitsAt(page, [320, 768, 1280]);
  });

  lesson.test(`in ${view} every target is 44 px or more by touch`,
    { at: `?webgl=false#${FULL}&view=${view}`, viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }, async (page) => {
      await unfolded(page);
      assert.deepEqual(await tooSmall(page, 'button, input, select, summary, textarea', 44), []);
    });
}

lesson.test('every control of every view is reached by Tab and shows it', { at: `?webgl=false#${FULL}` }, async (page) => {
  for (const view of VIEWS) {
    await openView(page, view);
    await unfolded(page);
    const wanted = await page.locator(`#view-${view}`).evaluate((panel) =>
      [...panel.querySelectorAll('button, input, select, summary, textarea')].filter((el) => {
        const input = /** @type {HTMLInputElement} */ (el);
        return el.checkVisibility() && !input.disabled && (input.type !== 'radio' || input.checked);
      }).length);
    await page.locator(`#tab-${view}`).focus();
    let met = 0;
    for (;;) {
      await page.keyboard.press('Tab');
      const now = await page.evaluate(() => {
        const el = document.activeElement;
        const rings = [el, el?.closest('.box'), el?.closest('.segments'), el?.closest('label')];
        return {
          inside: Boolean(el?.closest('[role="tabpanel"]')),
          name: el?.id || el?.textContent?.trim(),
          ring: rings.some((ring) => ring && getComputedStyle(ring).outlineStyle !== 'none' && parseFloat(getComputedStyle(ring).outlineWidth) >= 2),
        };
      });
      if (!now.inside) break;
      assert.ok(now.ring, `${now.name} in ${view} shows that it has the focus`);
      met += 1;
      assert.ok(met <= wanted, `no trap in ${view}`);
    }
    assert.equal(met, wanted, view);
  }
});

lesson.test('an open view at rest asks for no frame', { at: `?webgl=false#${FULL}` }, async (page) => {
  for (const view of VIEWS) {
    await openView(page, view);
    await atRest(page);
    const before = await page.evaluate(() => globalThis.__lesson?.frames());
    await page.waitForTimeout(300);
    assert.equal(await page.evaluate(() => globalThis.__lesson?.frames()), before, view);
  }
});
