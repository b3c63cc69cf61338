// Today's card, and the row of modes.
import assert from 'node:assert/strict';
import { WIDTHS, fitsAt } from './access.mjs';
import { drawn, enter, fieldSays, lessons, report, text } from './lesson.mjs';

const lesson = await lessons();

lesson.test('the card has the report\'s own numbers, and follows its fields', { at: '?webgl=false#wind=200/20&mode=card' }, async (page) => {
  for (const kt of ['20', '35']) {
    await page.locator('#f-wind-kt').fill(kt);
    await page.locator('#f-wind-kt').press('Enter');
    await drawn(page);
    const now = await report(page);
    const card = await text(page, '#card-sheet');
    assert.ok(card.includes(`${String(Math.round(now.entry?.heading_deg ?? NaN)).padStart(3, '0')}°`));
    assert.ok(card.includes(`${Math.round(Math.abs(now.wind.inbound?.wca_deg ?? NaN))}°`));
    assert.ok(card.includes(now.outcome));
    for (const id of ['still-air', 'drift-once', 'track-30', 'drift-triple', 'exact']) {
      const row = now.plans.find((plan) => plan.id === id);
      assert.ok(row && card.includes(row.name));
    }
    assert.ok(card.includes(`Wind 200° at ${kt} kt`));
  }
});

lesson.test('a true wind is said to be true, on the card and on the handout', { at: '?webgl=false#wind=310/24&windref=true&variation=20E&mode=card', before: (page) =>
  page.addInitScript(() => { window.print = () => {}; }) }, async (page) => {
  const SAID = 'Wind 310° true at 24 kt; all other directions are magnetic.';
  const { air } = await report(page);
  assert.equal(await text(page, '.card-scene'), `${SAID} ${Math.round(air.tas_kt)} kt true at 4000 ft.`);
  await page.locator('#to-explore').click();
  await page.locator('#mode-card').waitFor({ state: 'hidden' });
  await page.locator('#print-handout').click();
  const head = page.locator('#paper .paper-head');
  await head.waitFor({ state: 'attached' });
  assert.ok((await head.textContent())?.replace(/\s/g, ' ').includes(SAID));
  // What it is for the picture is magnetic.
  assert.match((await report(page)).summary, /Wind from 290°/);
});

lesson.test('the card alone is printed, with the caution', { at: '?webgl=false#mode=card' }, async (page) => {
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('#card-sheet').isVisible(), true);
  for (const gone of ['.chart', '.modes', '.card-fields', '#card-print', '.foot']) assert.equal(await page.locator(gone).isVisible(), false, gone);
  assert.match(await text(page, '.card-caution'), /not for navigation/);
});

lesson.test('fields that the card borrows go home', { at: '?webgl=false#mode=card' }, async (page) => {
  await page.locator('#to-explore').click();
  await page.waitForFunction(() => document.body.dataset.mode === 'explore');
  assert.equal(await page.locator('#view-plan #f-wind-kt').count(), 1);
});

lesson.test('a field that a view and a mode want goes to the one that is open, whichever closes first', { at: '?webgl=false#view=wind&mode=winds' }, async (page) => {
  /** @param {string} hash @param {string} field @param {string} where */
  const goes = async (hash, field, where) => {
    await page.evaluate((to) => { location.hash = to; }, hash);
    const named = new URLSearchParams(hash);
    await page.waitForFunction(([view, mode]) => document.getElementById('column')?.dataset.view === view && document.body.dataset.mode === mode,
      [named.get('view') ?? 'plan', named.get('mode') ?? 'explore']);
    await page.locator(`${where} #field-${field}`).waitFor();
  };
  await page.locator('#mode-winds #field-wind-from').waitFor();
  await goes('', 'wind-from', '#view-plan');
  await goes('mode=winds', 'wind-kt', '#mode-winds');
  await goes('view=wind&mode=winds', 'wind-from', '#mode-winds');
  await goes('view=wind', 'wind-from', '#view-wind');
  await goes('view=wind&mode=card', 'wind-from', '#mode-card');
  await goes('view=limits&mode=card', 'speed', '#mode-card');
  await goes('view=limits', 'speed', '#view-limits');
  await goes('', 'speed', '#view-plan');
  assert.equal(await page.locator('#view-plan #field-wind-from').isVisible(), true);
});

lesson.test('modes go by keyboard, back and forward, and are in the address', { at: '?webgl=false' }, async (page) => {
  for (const name of ['lesson', 'practice', 'fly', 'winds', 'card', 'explore']) {
    await page.locator(`#to-${name}`).focus();
    await page.keyboard.press('Enter');
    await page.waitForFunction((want) => document.body.dataset.mode === want, name);
    assert.equal(await page.locator('.modes [aria-current=page]').getAttribute('id'), `to-${name}`);
    if (name !== 'explore') {
      assert.match(page.url(), new RegExp(`mode=${name}`));
      // Not at once: what the lesson shows is read from a file first.
      await page.locator(`#mode-${name}`).waitFor({ state: 'visible' });
    }
    assert.equal(await page.locator('.column > .tabs').isVisible(), name === 'explore');
    assert.equal(await page.locator('.mode:visible').count(), name === 'explore' ? 0 : 1);
  }
  await page.goBack();
  await page.waitForFunction(() => document.body.dataset.mode === 'card');
  await page.goForward();
  await page.waitForFunction(() => document.body.dataset.mode === 'explore');
});

lesson.test('after a visit to any mode the person’s steps can be undone', { at: '?webgl=false' }, async (page) => {
  await enter(page, 'wind-kt', '31');
  await enter(page, 'wind-kt', '32');
  for (const mode of ['lesson', 'practice', 'fly', 'winds', 'card']) {
    await page.locator(`#to-${mode}`).click();
    await page.waitForFunction((want) => document.body.dataset.mode === want, mode);
    await drawn(page);
    await page.locator('#to-explore').click();
    await page.waitForFunction(() => document.body.dataset.mode === 'explore');
    await drawn(page);
    assert.equal(await page.locator('#f-wind-kt').inputValue(), '32', mode);
    assert.equal(await page.locator('#undo').isDisabled(), false, mode);
  }
  await page.locator('#undo').click();
  await fieldSays(page, 'wind-kt', '31');
});

lesson.test('a change that is still to be written does not lead back', { at: '?webgl=false#wind=200/30' }, async (page) => {
  // As a person does who starts over and follows a link at once: the change settles after
  // the address has changed, and before the page hears of it.
  await page.evaluate(() => {
    document.getElementById('reset')?.click();
    location.hash = 'mode=card';
    const until = performance.now() + 60;
    while (performance.now() < until);
  });
  await page.waitForFunction(() => document.body.dataset.mode === 'card');
  await drawn(page);
  assert.match(page.url(), /mode=card/);
});

lesson.test('the query can name the mode, as course platforms do', { at: '?webgl=false&mode=card' }, async (page) => {
  assert.equal(await page.locator('#mode-card').isVisible(), true);
});

lesson.test('a mode that is not there opens the first, and no other', { at: '?webgl=false#mode=nonsense' }, async (page) => {
  assert.equal(await page.locator('.column > .tabs').isVisible(), true);
  assert.equal(await page.locator('.mode:visible').count(), 0);
});

lesson.test('axe finds nothing on the card, and it fits', { at: '?webgl=false#mode=card' }, async (page) => {
  await fitsAt(page, WIDTHS);
});
