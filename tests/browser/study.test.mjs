// The page of maps by speed and altitude: its numbers are the study module's in Node; the choice
// stands in its address; files, paper, and no worker.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { catalogue, sayer } from '../../web/catalogue.mjs';
import { readCsv } from './csv.mjs';
import { SITE, coreInNode, drawn, lessons, text, timersSet, withoutWorker } from './lesson.mjs';
import { pagesOf } from './pdf.mjs';

const lesson = await lessons({ gl: false });
/** @type {typeof import('../../web/study.mjs')} */
const { load } = await import(pathToFileURL(join(SITE, 'study.mjs')).href);
const study = await load();
const say = sayer(catalogue());

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../web/study.mjs').MapChoice} MapChoice */

const SPEEDS = [80, 90, 105, 120, 150, 180];
const ALTITUDES = [2000, 4000, 8000, 12000, 16000];

/** A map of the study module in Node. @param {string} link @param {MapChoice} choice */
function inNode(link, choice) {
  study.scene(link);
  study.map.begin({ finest: 2, most_kt: 30, ...choice });
  while (!study.map.work(100000));
  return study.map.info();
}

/** Every map is there. @param {Page} page */
const whole = (page) => page.waitForFunction(() => document.documentElement.dataset.study === 'whole');

/** Spaces that do not break stand before units. @param {string} said */
const plain = (said) => said.replace(/\s/g, ' ');

/** The file that a button gives. @param {Page} page @param {string} press */
async function taken(page, press) {
  const waiting = page.waitForEvent('download');
  await page.locator(press).click();
  return readFileSync(await (await waiting).path(), 'utf8');
}

/** Row by row, the text of each cell's parts. @param {Page} page */
const shown = async (page) => (await page.locator('.study-grid tbody tr').evaluateAll((rows) => rows.map((row) =>
  [...row.querySelectorAll('td')].map((cell) => ['share', 'typical', 'worst'].map((name) => cell.querySelector(`.study-${name}`)?.textContent ?? '')))))
  .map((row) => row.map((cell) => cell.map(plain)));

/** The first map on the screen, or on paper. @param {Page} page @param {string} kind */
const firstMap = (page, kind) => page.locator(`canvas.${kind}`).first().evaluate((canvas) => /** @type {HTMLCanvasElement} */ (canvas).toDataURL());

/** @param {import('../../web/study.mjs').MapInfo} info */
const inWords = ({ share, spread }) => [`${Math.round(100 * share)} %`, `typical ${spread.median?.toFixed(2)} NM`, `worst ${spread.most?.toFixed(2)} NM`];

lesson.test('the table has the module’s numbers for the scene and the choice of the address; a choice by hand goes into it',
  { at: 'study.html#inbound=30&turns=right&tas=140&mode=winds&plan=track-30&most=60&tol=0.5', ready: null }, async (page) => {
    await whole(page);
    assert.equal(page.workers().length, 1, 'made in a worker');
    const SCENE = 'inbound=30&turns=right';
    const cells = await shown(page);
    assert.deepEqual(cells.map((row) => row.length), ALTITUDES.map(() => SPEEDS.length));
    for (const [row, column] of [[0, 0], [0, 5], [2, 3], [4, 0], [4, 5]]) {
      const of = `${SCENE}&ias=${SPEEDS[column]}&altitude=${ALTITUDES[row]}`;
      assert.deepEqual(cells[row][column], inWords(inNode(of, { plan: 'track-30', most_kt: 60, tolerance_nm: 0.5 })), of);
    }
    const table = page.getByRole('table', { name: say('page.study.title') });
    assert.deepEqual((await table.getByRole('rowheader').allTextContents()).map(plain), ['2,000 ft', '4,000 ft', '8,000 ft', '12,000 ft', '16,000 ft']);
    assert.match(await text(page, '#study-hold'), /030° inbound, right turns/);
    assert.match(await text(page, '.caution'), /not for navigation/i);
    const shares = cells.flat().map(([share]) => Number.parseInt(share, 10));
    const says = await text(page, '#study-says');
    assert.ok(says.includes(`${Math.max(...shares)} %`) && says.endsWith(`${Math.min(...shares)} %.`), says);
    assert.match(says, /Track 30° off .* within 0\.5 NM .* up to 60 kt/);

    // The newest of two choices, the second before the first is done.
    await page.locator('#winds-plan').selectOption('still-air');
    await page.locator('#winds-plan').selectOption('drift-triple');
    await whole(page);
    assert.deepEqual((await shown(page))[1][2], inWords(inNode(`${SCENE}&ias=105&altitude=4000`, { plan: 'drift-triple', most_kt: 60, tolerance_nm: 0.5 })));
    const hash = new URL(page.url()).hash;
    assert.match(hash, /^#inbound=30&turns=right&tas=140&mode=winds&plan=drift-triple&most=60&tol=0\.5$/);
    await page.waitForFunction(() => document.getElementById('live')?.textContent === document.getElementById('study-says')?.textContent);

    // A map leads to the same one in the lesson, and so does the way back, at the scene's own speed.
    const [[[share]]] = await shown(page);
    const to = new URL(await page.locator('.study-cell').first().evaluate((link) => /** @type {HTMLAnchorElement} */ (link).href));
    assert.equal(to.pathname, new URL(lesson.url).pathname);
    assert.match(await page.locator('#back').getAttribute('href') ?? '', /#inbound=30&turns=right&tas=140&mode=winds&plan=drift-triple&tol=0\.5$/);
    await page.goto(`${lesson.url}?webgl=false${to.hash}`);
    await page.waitForFunction(() => document.getElementById('winds-map')?.dataset.whole === 'true');
    assert.equal(await text(page, '#winds-share strong'), share);
    const { fields } = await page.evaluate(() => /** @type {any} */ (globalThis).__lesson.session.report());
    assert.deepEqual([fields.ias, fields.altitude, fields.inbound], ['80', '2000', '30']);

    // And from there back to the grid.
    await page.locator('#mode-winds details > summary').click();
    await page.locator('#winds-study').click();
    await page.waitForURL(/study\.html/);
    await whole(page);
    assert.deepEqual(await page.locator('select').evaluateAll((all) => all.map((select) => /** @type {HTMLSelectElement} */ (select).value)),
      ['miss', 'drift-triple', '', '60', '0.5']);
    assert.equal((await shown(page))[0][0][0], share);
  });

lesson.test('it is taken away as a table and as a drawing', { at: 'study.html#leg=1:30', ready: null }, async (page) => {
  await whole(page);
  const cells = (await shown(page)).flat();
  const [head, ...rows] = readCsv((await taken(page, '#study-csv')).replace(/^\uFEFF/, ''));
  assert.equal(head.length, 10);
  assert.equal(rows.length, cells.length);
  const core = await coreInNode();
  rows.forEach((row, i) => {
    const [ias, altitude, tas, rate, radius, share, mean, median, ninety_five, most] = row.map(Number);
    assert.deepEqual([ias, altitude], [SPEEDS[i % 6], ALTITUDES[Math.floor(i / 6)]]);
    assert.deepEqual([`${Math.round(share)} %`, `typical ${median.toFixed(2)} NM`, `worst ${most.toFixed(2)} NM`].map((said) => said.replace(/[\d.]+/, '')),
      cells[i].map((said) => said.replace(/[\d.]+/, '')));
    [share, median, most].forEach((value, k) => {
      const [said] = /[\d.]+/.exec(cells[i][k]) ?? [];
      assert.ok(Math.abs(value - Number(said)) <= (k === 0 ? 0.51 : 0.0056), `${cells[i][k]} is ${value}`);
    });
    assert.ok(median <= ninety_five && ninety_five <= most && mean <= most, row.join());
    const { air } = core.evaluate(`ias=${ias}&altitude=${altitude}`);
    assert.ok(Math.abs(tas - air.tas_kt) <= 0.051 && Math.abs(rate - air.turn_rate_deg_s) <= 0.0006 && Math.abs(radius - air.turn_radius_nm) <= 0.0006, row.join());
  });
  assert.ok(rows.some(([, , , rate]) => Number(rate) < 3), 'the bank limit holds somewhere');

  const svg = plain(await taken(page, '#study-svg'));
  const size = await page.evaluate(async (source) => {
    const image = new Image();
    image.src = `data:image/svg+xml,${encodeURIComponent(source)}`;
    await image.decode();
    return [image.naturalWidth, image.naturalHeight];
  }, svg);
  assert.ok(size[0] > 800 && size[1] > 800, `${size}`);
  assert.equal(svg.match(/<image [^>]*href="data:image\/png/g)?.length, cells.length);
  for (const said of [...cells.flat(), 'not for navigation', 'legs of 1:30']) assert.ok(svg.includes(said), said);
});

lesson.test('of two rules that are compared the numbers are differences, on the page and in its files', { at: 'study.html#plan=drift-triple&less=still-air', ready: null }, async (page) => {
  await whole(page);
  const { share, spread } = inNode('ias=105&altitude=4000', { plan: 'drift-triple', less: 'still-air' });
  const cell = [`${Math.round(100 * share)} %`, `differ by ${spread.median?.toFixed(2)} NM`, `at most ${spread.most?.toFixed(2)} NM`];
  assert.deepEqual((await shown(page))[1][2], cell);
  const hint = say('page.study.hint.numbers.less', { plan: say('page.winds.plan.drift-triple'), less: say('page.winds.plan.still-air') });
  assert.match(hint, /nearer .* than No drift correction.* differ by/);
  assert.equal(await text(page, '.study-numbers'), plain(hint));
  const [head, ...rows] = readCsv((await taken(page, '#study-csv')).replace(/^\uFEFF/, ''));
  assert.doesNotMatch(head.join(), /off|near enough/);
  assert.deepEqual(head.slice(5).map((name) => /nearer than|difference|differ/.test(name)), [true, true, true, true, true], head.join());
  assert.ok(rows.every((row) => row.length === head.length));
  // Its lines are broken.
  const svg = (await taken(page, '#study-svg')).replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
  for (const said of [...cell, plain(hint)]) assert.ok(svg.includes(said), `“${said}” is not in ${svg}`);
  assert.doesNotMatch(svg, /typical|worst|near enough/i);
  // Compared with nothing it is off again.
  await page.locator('#winds-less').selectOption('');
  await whole(page);
  assert.equal(await text(page, '.study-numbers'), plain(say('page.study.hint.numbers')));
  assert.match((await shown(page))[1][2][1], /^typical/);
});

lesson.test('on paper the grid has one sheet, in light colours whatever the screen’s', { at: 'study.html', ready: null }, async (page) => {
  await whole(page);
  const light = await firstMap(page, 'for-screen');
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.waitForFunction(() => document.documentElement.dataset.paper === 'apart' && document.documentElement.dataset.study === 'whole');
  assert.notEqual(await firstMap(page, 'for-screen'), light);
  assert.equal(await firstMap(page, 'for-paper'), light);
  const cells = (await shown(page)).flat(2);
  for (const format of ['A4', 'Letter']) {
    const pages = pagesOf(await page.pdf({ format, preferCSSPageSize: true, landscape: true }));
    assert.ok(pages[0].width_pt > pages[0].height_pt, format);
    const words = pages[0].text.replace(/\s+/g, ' ');
    for (const said of [...cells, '16,000 ft', 'not for navigation', 'Typical: in half']) assert.ok(words.includes(said), `${format}: “${said}” is not on the first sheet: ${words}`);
    const last = pages[pages.length - 1].text;
    assert.ok(pages.length <= 3 && pages[1].text.includes('within 0.25 NM') && last.length > 40, `${format}: ${pages.length} pages`);
  }
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  assert.deepEqual(await page.evaluate(() => ['for-screen', 'for-paper'].map((kind) => document.querySelector(`canvas.${kind}`)?.checkVisibility())), [false, true]);
});

lesson.test('without a worker the same is made in the page, and then nothing runs', {
  at: 'study.html',
  ready: null,
  before: withoutWorker,
}, async (page) => {
  await whole(page);
  const timers = () => timersSet(page);
  const before = await timers();
  assert.ok(before > 10, 'it was made in slices');
  for (let i = 0; i < 10; i += 1) await drawn(page);
  assert.equal(await timers(), before, 'no timers at rest');
  assert.deepEqual((await shown(page))[3][4], inWords(inNode('ias=150&altitude=12000', {})));
});

lesson.test('other things than misses have their own words; several rules have no scale', { at: 'study.html#map=inbound&plan=drift-once', ready: null }, async (page) => {
  await whole(page);
  const { share, spread } = inNode('ias=120&altitude=8000', { mapped: 'inbound' });
  assert.deepEqual((await shown(page))[2][3], [`${Math.round(100 * share)} %`, `typical ${spread.median?.toFixed(0)} s`, `worst ${spread.most?.toFixed(0)} s`]);
  // Above 14,000 ft another time is wanted: the key and the sentence name none.
  assert.deepEqual(await page.locator('#study-key .winds-marks span').allTextContents(), ['−1:00', '−0:30', '0:00', '0:30', '1:00']);
  assert.match(await text(page, '#study-says'), /makes the wanted time inbound/);
  await page.locator('#winds-mapped').selectOption('miss');
  await page.locator('#winds-plan').selectOption('best');
  await whole(page);
  assert.deepEqual((await page.locator('#study-key li').allInnerTexts()).map((name) => name.trim()),
    ['still-air', 'drift-once', 'track-30', 'drift-triple'].map((rule) => say(`page.winds.plan.${rule}`)));
  assert.match(await text(page, '#study-says'), /best of the four rules/);
});
