// What each view says is what the core says, and what its buttons do is what they say.
import assert from 'node:assert/strict';
import { addressSettled, ask, coreInNode, drawn, enter, lessons, live, report, text } from './lesson.mjs';

const lesson = await lessons();
const core = await coreInNode();

/** @typedef {import('./lesson.mjs').Page} Page */

/** @param {string} view @param {string} [link] */
const at = (view, link = '') => ({ at: `?webgl=false#${[link, `view=${view}`].filter(Boolean).join('&')}` });

/** Texts of all that a selector finds, spaces as one. @param {Page} page @param {string} selector */
const texts = async (page, selector) => (await page.locator(selector).allInnerTexts()).map((it) => it.replace(/\s+/g, ' ').trim());

/** @param {Page} page @param {string} link */
async function becomes(page, link) {
  await page.waitForFunction((want) => globalThis.__lesson?.session.link() === want, link)
    .catch(async () => assert.equal(await ask(page, 'link'), link));
  await addressSettled(page);
}

/** @param {number} deg */
const three = (deg) => String(Math.round(deg) % 360 || 360).padStart(3, '0');

lesson.test('a clearance is read as it is typed, and becomes the hold', at('clearance'), async (page) => {
  const said = 'hold west of MARLO on the 265 radial, left turns, expect further clearance 1845';
  const read = core.readClearance?.(said);
  assert.ok(read && read.inbound_deg === 85);
  await page.locator('#clearance-said').fill(said);
  assert.deepEqual(await texts(page, '#clearance-steps li'), read.steps);
  assert.equal(await page.locator('.contradiction').count(), 0);
  await page.locator('#clearance-use').click();
  await becomes(page, 'inbound=85&fix=MARLO&efc=18:45');
  await page.waitForFunction(() => document.getElementById('live')?.textContent?.includes('clearance'));
  const { clearance } = await report(page);
  assert.ok(clearance);
  assert.equal(await text(page, '.said'), clearance.text);
  assert.match(clearance.text, /MARLO ON THE 265 RADIAL, LEFT TURNS.*1845/);
  assert.deepEqual(await texts(page, '.said-also'), [`Spoken ${clearance.spoken}`, `Where it is on the chart ${clearance.published}`]);
  // What the page says of the hold can be read back by it: the same hold again.
  await page.locator('#reset').click();
  await becomes(page, '');
  await page.locator('#clearance-said').fill(clearance.text);
  await page.locator('#clearance-use').click();
  await becomes(page, 'inbound=85&fix=MARLO&efc=18:45');
});

lesson.test('a contradiction stands out and is not flown; what was not understood is named', at('clearance'), async (page) => {
  await page.locator('#clearance-said').fill('HOLD EAST OF MARLO VOR ON THE 265 RADIAL BANANA');
  const read = core.readClearance?.('HOLD EAST OF MARLO VOR ON THE 265 RADIAL BANANA', '238');
  assert.equal(read?.contradictions.length, 1);
  assert.deepEqual(await texts(page, '.contradiction'), [`Contradiction. ${read?.contradictions[0]}`]);
  assert.equal((await texts(page, '#clearance-steps li')).includes(read?.contradictions[0] ?? ''), false, 'not twice');
  assert.match(await text(page, '#clearance-problems'), /BANANA/);
  assert.equal(await text(page, '#clearance-use'), 'Use what is not in doubt');
  await page.locator('#clearance-use').click();
  await addressSettled(page);
  assert.match(await ask(page, 'link'), /^turns=right&.*fix=MARLO/);
  await page.locator('#clearance-said').fill('');
  assert.equal(await page.locator('#clearance-use').isVisible(), false);
  assert.equal(await text(page, '#clearance-steps'), '');
});

lesson.test('the clearance is copied', { ...at('clearance', 'fix=MARLO'), permissions: ['clipboard-read', 'clipboard-write'] }, async (page) => {
  await page.locator('#clearance-copy').click();
  await page.waitForFunction(() => document.getElementById('live')?.textContent === 'Copied');
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), (await report(page)).clearance?.text);
});

lesson.test('the three entries stand side by side as the core flies them; one is chosen', at('entry'), async (page) => {
  /** @param {import('../../shell/types').EntryRow[] | null | undefined} entries */
  const column = async (entries) => {
    assert.equal(entries?.length, 3);
    assert.deepEqual(await texts(page, '.entries thead th'), entries?.map((e) => e.label));
    const headings = await texts(page, '.entries tbody tr:nth-child(2) td');
    assert.deepEqual(headings, entries?.map((e) => (e.heading_deg === null ? '–' : `${three(e.heading_deg)}°`)));
    assert.deepEqual(await texts(page, '#entry-steps li'), entries?.find((e) => e.flown)?.steps);
    assert.equal(await page.locator('.entries input:checked').inputValue(), entries?.find((e) => e.flown)?.kind);
  };
  await column((await report(page)).entries);
  assert.ok((await text(page, '#entry-why')).startsWith((await report(page)).sector ?? '?'));
  assert.equal(await page.locator('#entry-auto').isVisible(), false);
  await page.locator('.entries input:checked').focus();
  await page.keyboard.press('ArrowRight');
  await becomes(page, 'entry=parallel');
  await column((await report(page)).entries);
  assert.equal(await page.evaluate(() => /** @type {HTMLInputElement} */ (document.activeElement).value), 'parallel', 'the focus stays');
  await page.locator('#entry-auto').click();
  await becomes(page, '');
  await column((await report(page)).entries);
  assert.equal(await page.evaluate(() => /** @type {HTMLInputElement} */ (document.activeElement).value), 'offset');
});

lesson.test('within five degrees of a boundary both entries are said to be acceptable', at('entry'), async (page) => {
  for (let arrive = 40; arrive < 80; ++arrive) {
    const { entries, sector_boundary_deg } = core.evaluate(`wind=360/0&arrive=${arrive}`);
    if (!entries || !(Number(sector_boundary_deg) < 3)) continue;
    await page.evaluate((to) => { location.hash = `wind=360/0&arrive=${to}&view=entry`; }, arrive);
    await page.waitForFunction((to) => globalThis.__lesson?.session.link().includes(`arrive=${to}`), arrive);
    await drawn(page);
    const standing = await texts(page, '.entries tbody tr:first-child td');
    assert.deepEqual(standing, entries.map((e) => (e.in_sector ? 'in its sector' : e.acceptable ? 'as good' : 'other sector')));
    assert.ok(standing.includes('in its sector') && standing.includes('as good'), String(standing));
    return;
  }
  assert.fail('no arrival near a boundary');
});

lesson.test('the wind of a report is read, explained and flown', at('wind', 'variation=10E'), async (page) => {
  const metar = 'METAR KABC 121953Z 24018G26KT 10SM CLR';
  await page.locator('#wind-said').fill(metar);
  assert.deepEqual(await texts(page, '#wind-steps li'), core.readWindReport?.('auto', metar, 'variation=10E').steps);
  await page.locator('#wind-use').click();
  await becomes(page, 'wind=240/18&windref=true&variation=10E');
  // The same words from a tower are magnetic.
  await page.locator('#wind-said').fill('wind 240 at 18');
  await page.locator('input[name="wind-kind"][value="tower"]').check();
  assert.match(await text(page, '#wind-kind-why'), /magnetic.*AIM/);
  assert.match(await text(page, '#wind-steps'), /magnetic/);
  await page.locator('#wind-use').click();
  await becomes(page, 'wind=240/18&variation=10E');
  await page.locator('input[name="wind-kind"][value="auto"]').check();
  await page.locator('#wind-said').fill('TAF KABC 121720Z 1218/1324 24012KT P6SM FM130000 31015G25KT');
  assert.deepEqual(await texts(page, '#wind-periods p > span'), ['1218/1324: 240° / 12 kt', 'FM130000: 310° / 15 kt, gusts 25 kt']);
  await page.locator('#wind-periods button').nth(1).click();
  await becomes(page, 'wind=310/15&windref=true&variation=10E');
  assert.equal(await page.locator('#f-wind-from').inputValue(), '310');
  await page.locator('#wind-said').fill('no wind at all here');
  assert.equal(await page.locator('#wind-use').isVisible(), false);
  assert.ok(await text(page, '#wind-problems'));
});

lesson.test('the laps stand in a table with advice, and the multiples with the exact one', at('laps'), async (page) => {
  assert.equal(await page.locator('#laps-none').isVisible(), true);
  await enter(page, 'laps', '3');
  await addressSettled(page);
  const { laps, multiples } = await report(page);
  assert.equal(laps?.length, 3);
  assert.equal(await page.locator('#laps-none').isVisible(), false);
  const rows = await texts(page, '#laps-table tbody tr:not(.note) > :last-child');
  assert.deepEqual(rows, laps?.map((lap) => `${Math.floor(Math.round(lap.inbound_s) / 60)}:${String(Math.round(lap.inbound_s) % 60).padStart(2, '0')}`));
  assert.deepEqual(await texts(page, '#laps-table .note'), laps?.map((lap) => lap.advice));
  assert.deepEqual(await texts(page, '#multiples tbody th'), multiples?.rows.map((row) => row.label));
  assert.equal(await page.locator('#by-wind tbody tr').count(), multiples?.by_wind.length);
  await page.locator('input[name="f-multiple-of"][value="exact"]').check({ force: true });
  await becomes(page, 'multiple=exact&laps=3');
  assert.equal(await page.locator('#f-multiple').inputValue(), '');
  await enter(page, 'multiple', '1.5');
  await becomes(page, 'multiple=1.5&laps=3');
  assert.equal(await page.locator('input[name="f-multiple-of"]:checked').count(), 0);
});

// The heading is the student's own: a rule would fly another one in another wind.
lesson.test('what was seen tells the wind, which can be flown', at('miss', 'heading=100'), async (page) => {
  assert.equal(await page.locator('#h-inferred').isVisible(), false);
  await enter(page, 'saw', '0.3 past');
  await becomes(page, 'heading=100&saw=-0.3');
  assert.match(await text(page, '#miss-tells'), /Not determined, because/);
  assert.equal(await page.locator('#miss-winds button').count(), 0);
  await enter(page, 'took', '1:10');
  await becomes(page, 'heading=100&saw=-0.3&took=1:10');
  const { inferred } = await report(page);
  const wind = inferred?.winds[0];
  assert.ok(inferred?.determined && wind);
  assert.deepEqual(await texts(page, '#miss-winds strong'), [`${three(wind.from_deg)}° / ${Math.round(wind.speed_kt)} kt`]);
  assert.deepEqual(await texts(page, '#miss-tells p'), inferred.tells);
  assert.deepEqual(await texts(page, '#miss-advice p'), inferred.advice);
  await page.locator('#miss-winds button').click();
  await becomes(page, `wind=${Number(three(wind.from_deg))}/${Number(wind.speed_kt.toFixed(1))}&heading=100&saw=-0.3&took=1:10`);
  // Flown in that wind, the page's own miss is the one that was seen.
  const again = (await report(page)).rollout;
  assert.ok(again && Math.abs(again.cross_nm + 0.3) < 0.03 && Math.abs(again.inbound_s - 70) < 1, JSON.stringify(again));
});

lesson.test('each rule of thumb opens beside the exact plan and stays open while numbers change', at('miss'), async (page) => {
  const { practice } = await report(page);
  assert.ok(practice && practice.length > 5);
  assert.deepEqual(await texts(page, '#practice summary span:first-child'), practice.map((item) => item.title));
  assert.deepEqual(await texts(page, '#practice .verdict'), practice.map((item) => (item.good ? 'good enough' : 'not good enough')));
  assert.match(await text(page, '#view-miss .mark'), /common practice, no source/i);
  const first = page.locator('#practice details').first();
  await first.locator('summary').click();
  assert.ok((await first.innerText()).includes(practice[0].words));
  await ask(page, 'set', 'wind', '200/30');
  await page.evaluate(() => { location.hash = 'wind=200/31&view=miss'; });
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=200/31');
  await drawn(page);
  assert.equal(await first.evaluate((el) => /** @type {HTMLDetailsElement} */ (el).open), true);
});

/** How far the needle stands from the middle, as a share of its scale, and where the pointer points. @param {Page} page */
const dials = (page) => page.evaluate(() => {
  const moved = (/** @type {string} */ part) => document.querySelector(`#dials ${part}`)?.getAttribute('transform') ?? '';
  return {
    needle: Number(/translate\((\S+) 0\)/.exec(moved('.dial-needle'))?.[1]) / 40,
    pointer: Number(/rotate\((\S+)\)/.exec(moved('.dial-pointer'))?.[1]),
    names: [...document.querySelectorAll('#dials .dial')].map((el) => el.getAttribute('aria-label')),
  };
});

lesson.test('the dials show what the core says at each moment, in a picture and in words', at('displays'), async (page) => {
  const { displays } = await report(page);
  assert.ok(displays && displays.moments.length > 2);
  const seen = new Set();
  for (const t of [-20, 31, 70, 100, 130, 180]) {
    await ask(page, 'seek', t);
    await page.locator('#scrub').evaluate((el, to) => {
      /** @type {HTMLInputElement} */ (el).value = String(to);
      el.dispatchEvent(new Event('input'));
    }, t);
    await drawn(page);
    // A getter: it has to be read where it is.
    const needle = await page.evaluate(() => globalThis.__lesson?.session.live().needle);
    const now = await dials(page);
    assert.ok(needle);
    assert.ok(Math.abs(now.needle - needle.deflection) < 0.01, `needle at ${t}: ${now.needle}, ${needle.deflection}`);
    assert.ok(Math.abs(now.pointer - (needle.relative_deg ?? 0)) < 0.1, `pointer at ${t}`);
    assert.equal(await text(page, '#needle-words'), needle.words);
    assert.ok(now.names.every(Boolean));
    seen.add(now.names.join());
  }
  assert.ok(seen.size >= 5, 'they do move');
  const last = displays.moments[displays.moments.length - 1];
  await page.locator('#moments button').last().click();
  assert.ok(Math.abs((await live(page)).t_s - last.at_s) < 1e-6);
  assert.deepEqual(await texts(page, '#moments button > :last-child'), displays.moments.map((moment) => moment.label));
});

lesson.test('the needles move while it plays', at('displays'), async (page) => {
  await ask(page, 'seek', 40);
  await page.locator('#play').click();
  const before = (await dials(page)).pointer;
  await page.waitForFunction((was) => document.querySelector('#dials .dial-pointer')?.getAttribute('transform') !== `rotate(${was.toFixed(1)})`, before);
  await page.locator('#play').click();
});

lesson.test('the speed tables of both books stand there with the line that counts', at('limits', 'altitude=12000&ias=235'), async (page) => {
  const { limits } = await report(page);
  assert.ok(limits && !limits.within);
  assert.deepEqual(await texts(page, '#limits-tables h3'),
    limits.tables.map((table) => (table.rule === limits.rule ? `${table.label}: counts here` : table.label)));
  assert.equal(await page.locator('#limits-tables tbody tr').count(), limits.tables.flatMap((table) => table.rows).length);
  assert.equal(await page.locator('#limits-tables [aria-current]').count(), limits.tables.flatMap((table) => table.rows).filter((row) => row.now).length);
  assert.ok((await text(page, '#limits-words')).startsWith(limits.words));
  await page.locator('#f-limit').selectOption('icao-turbulence');
  await page.waitForFunction(() => globalThis.__lesson?.session.link().includes('limit=icao-turbulence'));
  await drawn(page);
  assert.match((await texts(page, '#limits-tables h3')).join(), /turbulence: counts here/);
  await enter(page, 'roll', '5');
  await addressSettled(page);
  assert.ok((await text(page, '#limits-turn')).includes((await report(page)).roll?.words ?? '?'));
});

lesson.test('the protected area is said while its view is open, with its caption in view', at('limits'), async (page) => {
  const { area } = await report(page);
  const known = await page.evaluate(() => 'area' in (globalThis.__lesson?.session.layers() ?? {}));
  assert.equal(Boolean(area), known);
  if (!area) return;
  assert.equal(await text(page, '#area-caption'), area.caption);
  assert.ok((await text(page, '#area-words')).includes(area.inside_words));
  await page.locator('#tab-plan').click();
  await drawn(page);
  assert.equal((await report(page)).area, null, 'and is not worked out when nobody looks');
});
