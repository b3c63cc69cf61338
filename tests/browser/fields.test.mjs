// Every control of the form: what it changes, and what happens to a value that cannot be.
import assert from 'node:assert/strict';
import { addressSettled, ask, drawn, enter, fieldSays, lessons, openView, report, reveal, text, unfold } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

/** The picture as the page shows it, without the canvas. @param {Page} page */
const picture = (page) => page.locator('#picture svg').evaluate((svg) => svg.outerHTML);

/** @param {Page} page @param {string} link */
async function saysLink(page, link) {
  await page.waitForFunction((want) => globalThis.__lesson?.session.link() === want, link)
    .catch(async () => assert.equal(await ask(page, 'link'), link));
  await addressSettled(page);
}

/** A field's control, whatever it is. @param {Page} page @param {string} id @param {string} value */
async function choose(page, id, value) {
  if (await page.locator(`input[name="f-${id}"]`).count()) {
    await page.locator(`input[name="f-${id}"][value="${value}"]`).check({ force: true });
  } else if (await page.locator(`select#f-${id}`).count()) {
    await page.locator(`#f-${id}`).selectOption(value);
  } else {
    await enter(page, id, value);
  }
}

/** From: the scene to begin with. @typedef {[id: string, value: string, link: string, from?: string]} Change */

/** @type {Change[]} */
const CHANGES = [
  ['inbound', '251', 'inbound=251'],
  ['inbound', '7', 'inbound=7'],
  ['arrive', '070', 'arrive=70'],
  ['turns', 'right', 'turns=right'],
  ['leg', '2nm', 'leg=2nm'],
  ['leg', '1:30', 'leg=1:30'],
  ['wind-from', '200', 'wind=200/24'],
  ['wind-kt', '31', 'wind=160/31'],
  ['wind-kt', '12,5', 'wind=160/12.5'],
  ['speed', '120', 'ias=120'],
  ['speed', '120', 'tas=120', 'tas=100'],
  ['altitude', '9000', 'altitude=9000'],
  ['isa', '20', 'isa=+20'],
  ['isa', '\u221220', 'isa=-20'],
  ['bank', '10', 'bank=10'],
  ['variation', '9W', 'windref=true&variation=9W', 'windref=true'],
  ['windref', 'true', 'windref=true&variation=20E', 'variation=20E'],
  ['rule', 'drift-triple', 'rule=drift-triple'],
  ['timing', 'groundspeed', 'timing=groundspeed'],
  ['heading', '118', 'heading=118'],
  ['time', '1:20', 'time=1:20'],
  ['entry', 'direct', 'entry=direct'],
  ['timer', 'level', 'timer=level'],
  ['laps', '2', 'laps=2'],
  ['multiple', '1', 'multiple=1&laps=2', 'laps=2'],
  ['multiple-of', '2.5', 'multiple=2.5&laps=2', 'laps=2'],
  ['multiple-of', 'exact', 'multiple=exact&laps=2', 'laps=2'],
  ['adjust', 'keep', 'laps=2&adjust=keep', 'laps=2'],
  ['intercept', '60', 'intercept=60'],
  ['book', 'icao', 'book=icao'],
  ['parallel', 'fix', 'entry=parallel&parallel=fix', 'entry=parallel'],
  ['fix', 'Marlo', 'fix=MARLO'],
  ['efc', '1845', 'efc=18:45'],
  ['station-place', 'from', 'station=10from'],
  ['station-place', 'fix', '', 'station=12to'],
  ['station-dme', '12', 'station=12to'],
  ['station-dme', '7.5', 'station=7.5from', 'station=12from'],
  ['elevation', '1200', 'elevation=1200'],
  ['aid', 'ndb', 'aid=ndb'],
  ['scale', 'terminal', 'scale=terminal'],
  ['scale', 'auto', '', 'scale=terminal'],
  ['measure', 'dme', 'leg=4nm&measure=dme', 'leg=4nm'],
  ['radial', '075', 'station=10to&radial=75', 'station=10to'],
  ['limit', 'icao-cat-ab', 'limit=icao-cat-ab'],
  ['limit', 'charted', 'limit=175'],
  ['limit', 'auto', '', 'limit=175'],
  ['limit-kt', '90', 'limit=90'],
  ['roll', '5', 'roll=5'],
  ['later-from', '300', 'later=300/24'],
  ['later-kt', '40', 'later=160/40'],
  ['later-kt', '', '', 'later=300/40'],
  ['saw', '0.3 past', 'saw=-0.3'],
  ['saw', '.2 NM short', 'saw=0.2'],
  ['took', '1:10', 'took=1:10'],
  ['held', '8L', 'held=8L'],
];

/** What is no part of the track: it changes what is said of it. */
const SAID = new Set(['fix', 'efc', 'elevation', 'aid', 'scale', 'station-place', 'station-dme', 'measure', 'radial',
  'limit', 'limit-kt', 'saw', 'took', 'held']);

/** What the core says, apart from what was asked. @param {Page} page */
async function answer(page) {
  const { fields, link, ...rest } = await report(page);
  return JSON.stringify({ ...rest, scenario: null });
}

/** So many in one page: a busy machine takes its time. */
const BATCH = 12;

for (let first = 0; first < CHANGES.length; first += BATCH) {
  const batch = CHANGES.slice(first, first + BATCH);
  lesson.test(`every control changes the link and the picture, or what is said: from ${batch[0][0]} on`, { at: '?webgl=false' }, async (page) => {
    for (const change of batch) await changes(page, change);
  });
}

/** @param {Page} page @param {Change} change */
async function changes(page, [id, value, link, from = '']) {
  await page.evaluate((to) => { location.hash = to; }, from);
  await saysLink(page, from);
  await reveal(page, id);
  await unfold(page);
  await drawn(page);
  const before = await picture(page);
  const said = await answer(page);
  await choose(page, id, value);
  await saysLink(page, link);
  if (SAID.has(id)) assert.ok(await answer(page) !== said, `${id}: nothing that is said has changed`);
  else {
    await page.waitForFunction((was) => document.querySelector('#picture svg')?.outerHTML !== was, before)
      .catch(() => assert.fail(`${id}: the picture stays as it was`));
  }
  assert.equal(await page.locator('#problems li').count(), 0, id);
}

lesson.test('each key of the link is in the table', { at: '?webgl=false' }, async (page) => {
  const { scenario } = /** @type {any} */ (await report(page));
  const untested = Object.keys(scenario).filter((key) => !CHANGES.some(([, , link]) => link.includes(`${key}=`)));
  assert.deepEqual(untested, []);
});

lesson.test('another kind of airspeed is another name for the same flight', { at: '?webgl=false' }, async (page) => {
  const before = await report(page);
  assert.ok(before.air && before.rollout);
  await unfold(page);
  await choose(page, 'speed-kind', 'tas');
  const tas = Math.round(before.air.tas_kt);
  await saysLink(page, `tas=${tas}`);
  await fieldSays(page, 'speed', String(tas));
  const after = await report(page);
  assert.ok(after.rollout && Math.abs(after.rollout.cross_nm - before.rollout.cross_nm) < 0.02);
});

lesson.test('the buttons beside a number go to the next round number, and over north', { at: '?webgl=false' }, async (page) => {
  const more = page.locator('#field-wind-from .step[data-step="1"]');
  const less = page.locator('#field-wind-from .step[data-step="-1"]');
  await enter(page, 'wind-from', '358');
  await more.click();
  await fieldSays(page, 'wind-from', '360');
  await more.click();
  await saysLink(page, 'wind=5/24');
  await less.click();
  await less.click();
  await saysLink(page, 'wind=355/24');
  await page.locator('#f-inbound').focus();
  await page.keyboard.press('ArrowUp');
  await saysLink(page, 'inbound=239&wind=355/24');
});

lesson.test('where the rule has no answer there is nothing to step from, and nothing wrong in pressing', { at: '?webgl=false#wind=187/150&arrive=72' }, async (page) => {
  const told = (await report(page)).problems.map(({ key }) => key);
  assert.ok(told.includes('entry') && !told.includes('time'), told.join());
  for (const id of ['heading', 'time']) {
    await fieldSays(page, id, '');
    for (const way of [-1, 1]) {
      await page.locator(`#field-${id} .step[data-step="${way}"]`).click();
      await drawn(page);
    }
    await fieldSays(page, id, '');
  }
  assert.deepEqual((await report(page)).problems.map(({ key }) => key), told);
  // Nor is there anything to read while nothing is flown.
  for (const name of ['heading', 'track', 'groundspeed', 'time', 'off', 'drift']) assert.equal(await text(page, `#strip-${name}`), '–', name);
  await enter(page, 'wind-kt', '20');
  await page.waitForFunction(() => /^\d{3}°$/.test(document.getElementById('strip-heading')?.textContent ?? ''));
});

lesson.test('a number of the rule becomes the student’s own and can be handed back', { at: '?webgl=false' }, async (page) => {
  const heading = page.locator('#f-heading');
  const rule = await heading.inputValue();
  assert.equal(Number(rule), Math.round((await report(page)).entry?.heading_deg ?? 0));
  assert.equal(await page.locator('#clear-heading').isVisible(), false);
  await enter(page, 'heading', '125');
  await saysLink(page, 'heading=125');
  await page.locator('#clear-heading').click();
  await saysLink(page, '');
  await fieldSays(page, 'heading', rule);
  await page.locator('#clear-heading').waitFor({ state: 'hidden' });
  assert.equal(await text(page, '#own-heading'), 'from the rule');
});

lesson.test('the picture follows while a number is being typed, and typing is one step', {}, async (page) => {
  const frames = await page.evaluate(() => globalThis.__lesson?.viewFrames() ?? 0);
  await page.locator('#f-wind-from').click();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('21');
  assert.equal(await ask(page, 'link'), '', 'two digits of a direction may be the first of three');
  await page.keyboard.type('0');
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=210/24');
  await page.waitForFunction((was) => (globalThis.__lesson?.viewFrames() ?? 0) > was, frames);
  await page.keyboard.press('Backspace');
  await page.keyboard.type('5');
  await page.keyboard.press('Enter');
  await saysLink(page, 'wind=215/24');
  await page.locator('#undo').click();
  await saysLink(page, '');
});

lesson.test('a field left with its first text again follows the picture as before', { at: '?webgl=false' }, async (page) => {
  const field = page.locator('#f-wind-from');
  await field.click();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('210');
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=210/24');
  await page.keyboard.press('Control+A');
  await page.keyboard.type('160');
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === '');
  await page.keyboard.press('Tab');
  await page.evaluate(() => { location.hash = 'wind=300/24'; });
  await fieldSays(page, 'wind-from', '300');
});

lesson.test('what is being typed is not overwritten by what was changed before', { at: '?webgl=false' }, async (page) => {
  await page.evaluate(() => {
    const input = /** @type {HTMLInputElement} */ (document.getElementById('f-speed'));
    // In one task: a change whose frame is still to come, and the first digit of a number.
    location.hash = 'wind=300/24';
    return new Promise((done) => addEventListener('hashchange', () => {
      input.focus();
      input.value = '9';
      input.dispatchEvent(new InputEvent('input', { bubbles: true }));
      done(null);
    }, { once: true }));
  });
  await fieldSays(page, 'wind-from', '300');
  assert.equal(await page.locator('#f-speed').inputValue(), '9');
});

/** @type {[id: string, value: string, says: RegExp][]} */
const REFUSED = [
  ['inbound', '400', /^inbound: “400”.*0 to 360.*Used instead: 251\./],
  ['arrive', 'x', /^arrive: “x”.*0 to 360.*Used instead: 85\./],
  ['leg', 'long', /^leg: “long”.*0:15 to 10:00.*0\.5nm.*Used instead: the automatic value\./],
  ['wind-from', '361', /^wind: “361\/24”.*0 to 360.*0 to 150 kt.*Used instead: 160\/24\./],
  ['wind-kt', '151', /^wind: “160\/151”.*0 to 150 kt.*Used instead: 160\/24\./],
  ['speed', '39', /^ias: “39”.*40 to 350 kt.*Used instead: ias 105\./],
  ['altitude', '45001', /^altitude: “45001”.*−1000 to 45000 ft.*Used instead: 4000\./],
  ['isa', '61', /^isa: “61”.*−60 to \+60.*Used instead: 0\./],
  ['bank', '4', /^bank: “4”.*5 to 60°.*Used instead: 30\./],
  ['variation', '7', /^variation: “7”.*E or W.*Used instead: 0E\./],
  ['heading', '-1', /^heading: “-1”.*0 to 360.*Used instead: the automatic value\./],
  ['time', '10:01', /^time: “10:01”.*0:00 to 10:00.*Used instead: the automatic value\./],
  ['multiple', '-1', /^multiple: “-1”.*0 to 10.*Used instead: 3\./],
  ['intercept', '91', /^intercept: “91”.*5 to 90°.*Used instead: 30\./],
  ['laps', '2.5', /^laps: “2\.5”.*whole number from 0 to 10.*Used instead: 0\./],
  ['fix', 'a/b', /^fix: “a\/b”.*12 letters/],
  ['efc', '25:00', /^efc: “25:00”.*time of day/],
  ['station-dme', '500', /^station: “500to”.*1 to 200.*Used instead: fix\./],
  ['elevation', '30000', /^elevation: “30000”.*20000 ft.*Used instead: 0\./],
  ['radial', '361', /^radial: “361”.*0 to 360/],
  ['limit-kt', '20', /^limit: “20”/],
  ['roll', '31', /^roll: “31”.*1 to 30°.*Used instead: 0\./],
  ['later-kt', '151', /^later: “160\/151”.*0 to 150 kt/],
  ['saw', 'far', /^saw: “far”.*20 NM/],
  ['took', '21:00', /^took: “21:00”.*0:00 to 20:00/],
  ['held', '8', /^held: “8”.*L or R/],
];

lesson.test('a value that cannot be is named, with what is allowed and used; the rest is kept',
  { at: '?webgl=false#inbound=251' }, async (page) => {
    for (const [id, value, says] of REFUSED) {
      await reveal(page, id);
      await unfold(page);
      const good = await page.locator(`#f-${id}`).inputValue();
      await enter(page, id, value);
      const note = page.locator(`#problem-${id}`);
      await note.waitFor({ state: 'visible' });
      assert.match(await note.innerText(), says);
      const field = page.locator(`#f-${id}`);
      assert.equal(await field.getAttribute('aria-invalid'), 'true', id);
      assert.ok((await field.getAttribute('aria-describedby'))?.split(' ').includes(`problem-${id}`), id);
      assert.equal(await field.inputValue(), value, 'what was typed can be mended');
      assert.match(await text(page, '#problems'), says);
      await saysLink(page, 'inbound=251');
      await enter(page, id, good);
      await note.waitFor({ state: 'hidden' });
      assert.equal(await field.getAttribute('aria-invalid'), null);
      assert.equal(await page.locator('#problems li').count(), 0);
      // A number of the rule, typed again by hand, is the student's own.
      const own = page.locator(`#clear-${id}`);
      if (await own.count() && await own.isVisible()) await own.click();
      await saysLink(page, 'inbound=251');
    }
  });

lesson.test('a problem in a folded part opens it', { at: '?webgl=false#bank=99' }, async (page) => {
  assert.equal(await page.locator('#f-bank').isVisible(), true);
  assert.equal(await page.locator('#f-bank').getAttribute('aria-invalid'), 'true');
});

lesson.test('a bad link keeps its good keys and names each of the others',
  { at: '?webgl=false#inbound=999&wind=200/30&laps=x&turns=right&colour=blue&v=2' }, async (page) => {
    assert.equal(await ask(page, 'link'), 'turns=right&wind=200/30');
    const said = await page.locator('#problems li').allInnerTexts();
    assert.equal(said.length, 4);
    for (const [i, words] of [[0, /^inbound: “999”.*Used instead: 238/], [1, /^laps: “x”.*Used instead: 0/],
      [2, /“colour” is not a key/], [3, /“2” is not a version/]]) {
      assert.match(said[Number(i)], /** @type {RegExp} */ (words));
    }
    assert.equal(await page.locator('#f-inbound').getAttribute('aria-invalid'), 'true');
    assert.equal(await page.locator('#f-inbound').inputValue(), '238', 'the value in use');
    assert.equal(await page.locator('#f-arrive').getAttribute('aria-invalid'), null);
    await page.evaluate(() => { location.hash = 'inbound=120'; });
    await page.waitForFunction(() => document.querySelectorAll('#problems li').length === 0);
    await fieldSays(page, 'inbound', '120');
    assert.equal(await page.locator('#f-inbound').getAttribute('aria-invalid'), null);
  });

lesson.test('each plan of the table is chosen, marked and flown', { at: '?webgl=false' }, async (page) => {
  for (const plan of (await report(page)).plans.filter((p) => p.exists)) {
    await page.evaluate(() => { location.hash = ''; });
    await saysLink(page, '');
    const radio = page.locator(`input[name="plan"][value="${plan.id}"]`);
    if (!await radio.isVisible()) await page.locator('#more-plans').click();
    await radio.click();
    await drawn(page);
    await addressSettled(page);
    const now = await report(page);
    assert.equal(now.plans.find((p) => p.flown)?.id, plan.id, `${plan.id} is chosen`);
    assert.ok(Math.abs((now.entry?.heading_deg ?? 0) - (plan.heading_deg ?? 0)) < 0.06, plan.id);
    assert.ok((await text(page, '.plans tr.flown')).startsWith(plan.name), plan.id);
    assert.equal(await radio.isChecked(), true, plan.id);
    assert.equal(await page.locator('input[name="plan"]:checked').count(), 1);
    const link = await ask(page, 'link');
    const by_link = await page.evaluate((it) => globalThis.__lesson?.core.evaluate(it).plans.find((p) => p.flown)?.id, link);
    assert.equal(by_link, plan.id, `${plan.id} by its link ${link}`);
  }
});
