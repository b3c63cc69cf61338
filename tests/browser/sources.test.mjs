// The page "How do we know?" and docs/sources.md: every row of the tables, readable by anyone.
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { test } from 'node:test';
import { catalogue, sayer } from '../../web/catalogue.mjs';
import { COLUMNS, figures, lineOf, markdown, tablesOf, totalOf, unlisted } from '../../web/sources.mjs';
import { SITE, addressSettled, drawn, enter, lessons, text } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../web/sources.mjs').Row} Row */

const lesson = await lessons();
const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const say = sayer(catalogue());
const tables = tablesOf(join(SITE, '../wasm/sources_list_wasm.js'));
const rows = tables.flatMap((table) => table.rows);
const PAGE = { at: 'sources.html', ready: null };

/** Every row as the page shows it, cell by cell. @param {Page} page */
const shown = (page) => page.evaluate(() => [...document.querySelectorAll('.checks-table tbody tr')]
  .map((row) => [...row.children].map((cell) => cell.textContent)));

/** @param {Page} page */
async function hasEveryRow(page) {
  assert.deepEqual(await shown(page), rows.map((row) => {
    const line = lineOf(row, say);
    return COLUMNS.map((column) => line[column]);
  }));
  assert.ok(rows.length > 290, `${rows.length} rows`);
  assert.equal(await page.locator('.checks-table').count(), tables.length);
  assert.match(await text(page, '.caution'), /not for navigation/i);
  assert.equal(await text(page, '.total'), totalOf(tables, say));
}

lesson.test('the page has every row of every table, with its result', PAGE, async (page) => {
  await hasEveryRow(page);
  for (const { id, title, rows: own } of tables) {
    const table = page.getByRole('table', { name: title, exact: true });
    assert.equal(await table.getAttribute('id'), id);
    assert.equal(await table.getByRole('rowheader').count(), own.length, title);
    assert.equal(await table.getByRole('columnheader').count(), COLUMNS.length, title);
  }
});

for (const width of [1280, 390]) {
  lesson.test(`it needs no JavaScript, ${width} px wide`,
    { ...PAGE, javaScriptEnabled: false, viewport: { width, height: 800 } }, async (page) => {
      await hasEveryRow(page);
      assert.equal(await page.locator('#theme').isVisible(), false, 'no choice that would not work');
      assert.equal(await page.locator('.subjects a').first().isVisible(), true);
    });
}

lesson.test('the marks are explained and counted', PAGE, async (page) => {
  const words = await page.locator('.marks > div').allInnerTexts();
  assert.equal(words.length, 4);
  for (const [i, mark] of ['seen', 'memory', 'derived', 'practice'].entries()) {
    const n = rows.filter((row) => row.mark === mark).length;
    assert.match(words[i], new RegExp(`\\b${n} checks?\\b`), mark);
  }
});

lesson.test('it keeps a strict policy', PAGE, async (page) => {
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  assert.match(policy ?? '', /default-src 'none'; script-src 'self'; style-src 'self';/);
  assert.equal(await page.locator('script:not([src]), style, [style]').count(), 0);
});

for (const colours of /** @type {const} */ ([{ colorScheme: 'light' }, { colorScheme: 'dark' }, { colorScheme: 'dark', forcedColors: 'active' }])) {
  for (const width of [1280, 390]) {
    lesson.test(`axe finds nothing, ${JSON.stringify(colours)}, ${width} px wide`,
      { ...PAGE, ...colours, viewport: { width, height: 800 } }, async (page) => {
        await page.evaluate(axe);
        const found = await page.evaluate(async () => {
          const { violations } = await /** @type {any} */ (globalThis).axe.run(document, { resultTypes: ['violations'] });
          return violations.map((/** @type {any} */ rule) => `${rule.id}: ${rule.nodes.length}, ${rule.nodes[0].target} ${rule.nodes[0].failureSummary}`);
        });
        assert.deepEqual(found, []);
      });
  }
}

lesson.test('nothing sticks out at any width', PAGE, async (page) => {
  for (const width of [320, 390, 600, 899, 900, 1000, 1440]) {
    await page.setViewportSize({ width, height: 700 });
    await drawn(page);
    const out = await page.evaluate(() => [...document.querySelectorAll('body *')]
      .filter((el) => el.checkVisibility() && !el.closest('thead, .skip') && el.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
      .map((el) => `${el.tagName} ${el.textContent?.slice(0, 40)}`));
    assert.deepEqual(out, [], `${width} px wide`);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth), `${width} px wide`);
    const spills = await page.evaluate(() => [...document.querySelectorAll('.checks-table th, .checks-table td')]
      .filter((cell) => cell.checkVisibility() && cell.scrollWidth > cell.clientWidth + 1 && !cell.closest('thead')).map((cell) => cell.textContent));
    assert.deepEqual(spills, [], `words that leave their cell, ${width} px wide`);
  }
});

lesson.test('narrow, a row is a block and each number has its name beside it, but on paper a row', { ...PAGE, viewport: { width: 320, height: 700 } }, async (page) => {
  const row = page.locator('.checks-table tbody tr').first();
  const cells = await row.locator('td').evaluateAll((all) => all.map((cell) => ({
    name: getComputedStyle(cell, '::before').content, top: cell.getBoundingClientRect().top })));
  assert.deepEqual(cells.map(({ name }) => name), COLUMNS.slice(1).map((column) => `"${say(`page.sources.col.${column}`)}"`));
  for (let i = 1; i < cells.length; ++i) assert.ok(cells[i].top > cells[i - 1].top, 'one below the other');
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await page.setViewportSize({ width: 680, height: 900 });
  const cellsNow = await row.locator('td').evaluateAll((all) => all.map((cell) => [getComputedStyle(cell).display, getComputedStyle(cell, '::before').content]));
  assert.deepEqual(cellsNow, cellsNow.map(() => ['table-cell', 'none']));
  assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor), 'rgb(255, 255, 255)');
  assert.equal(await page.locator('.theme').isVisible(), false);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth), 'nothing is cut');
});

lesson.test('the subjects lead to their tables', PAGE, async (page) => {
  const { id, title } = tables[tables.length - 1];
  await page.locator('.subjects').getByRole('link', { name: title }).click();
  assert.equal(new URL(page.url()).hash, `#${id}`);
  const top = await page.locator(`#${id}`).evaluate((table) => table.getBoundingClientRect().top);
  assert.ok(top >= 0 && top < 400, `at ${top}`);
  assert.equal(new URL(await page.locator('#back').evaluate((a) => /** @type {HTMLAnchorElement} */ (a).href)).hash, '');
});

lesson.test('the lesson leads to it, and it back to the same scene', { at: '?webgl=false' }, async (page) => {
  await enter(page, 'wind-kt', '31');
  await addressSettled(page);
  await page.getByRole('link', { name: say('page.sources.title') }).click();
  await page.waitForURL(/sources\.html/);
  assert.equal(await text(page, 'h1'), say('page.sources.title'));
  await page.locator('#back').click();
  await page.waitForFunction(() => document.documentElement.dataset.ready);
  assert.equal(await page.locator('#f-wind-kt').inputValue(), '31');
});

lesson.test('colours chosen here are the lesson’s too', PAGE, async (page) => {
  await page.locator('#theme').getByLabel(say('page.theme.dark')).check();
  assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor), 'rgb(18, 22, 31)');
  await page.goto(`${lesson.url}?webgl=false`);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), 'dark');
});

// --- how a row is put in words ---

test('docs/sources.md is what the tables say', async () => {
  const file = await readFile(new URL('../../docs/sources.md', import.meta.url), 'utf8');
  assert.equal(file, markdown(tables, say));
  assert.equal(file.split('\n').filter((line) => /^\| (?!---)/.test(line)).length, rows.length + tables.length);
});

test('figures: fixed decimals, thousands, a true minus, and no noise', () => {
  /** @type {[number, number, string][]} */
  const cases = [[2214.9, 0, '2,215'], [-13.63, 1, '−13.6'], [-0.04, 1, '0.0'], [0.5, 0, '1'], [-0.5, 0, '−1'],
    [1234567.25, 1, '1,234,567.3'], [0.00546, 5, '0.00546'], [999.96, 1, '1,000.0'], [82.45, 1, '82.5'],
    [82.45 - 1e-9, 1, '82.5'], [82.45 + 1e-9, 1, '82.5'], [82.449, 1, '82.4']];
  for (const [value, decimals, want] of cases) assert.equal(figures(value, decimals), want, `${value}`);
});

/** @param {Partial<Row>} row */
const line = (row) => lineOf({ id: 'X1', what: 'x', unit: 'kt', expected: 1, tolerance: 0.5, actual: 1, source: 's', mark: 'seen', ok: true, ...row }, say);

test('a row in words: units, directions, entries, and what is not there', () => {
  assert.deepEqual(line({ expected: 88, actual: 88.33476 }),
    { id: 'X1', what: 'x', expected: '88 kt', within: '± 0.5 kt', actual: '88.3 kt', mark: 'seen', source: 's', result: 'agrees', ok: true });
  const north = line({ unit: 'direction', expected: 360, tolerance: 0.5, actual: 359.97 });
  assert.deepEqual([north.expected, north.within, north.actual], ['360°', '± 0.5°', '360.0°']);
  assert.equal(line({ unit: 'direction', expected: 7, actual: 7.21 }).actual, '007.2°');
  assert.equal(line({ unit: 'direction', expected: 360, tolerance: 0, actual: 0 }).actual, '360°');
  assert.equal(line({ tolerance: 1e-9, expected: 21, actual: 21.0000000001 }).within, 'exact');
  assert.equal(line({ unit: 'entries', expected: ['direct', 'offset'], tolerance: 0, actual: ['direct'] }).expected, 'direct or offset');
  const off = line({ expected: 120, tolerance: 0, actual: 120.0004, ok: false });
  assert.deepEqual([off.actual, off.result], ['120.0004 kt', 'differs']);
  assert.equal(line({ actual: null, ok: false }).actual, '–');
  assert.throws(() => line({ unit: 'furlongs' }), /no word for page\.sources\.unit\.furlongs/);
});

test('rows that are not met are counted', () => {
  const bad = structuredClone(tables);
  bad[0].rows[0].ok = false;
  assert.match(totalOf(bad, say), /One of them is not met/);
  bad[1].rows[0].ok = false;
  assert.match(totalOf(bad, say), /2 of them are not met/);
  assert.match(markdown(bad, say), /\| differs \|/);
});

test('a table that all_tables.h does not list is found', async () => {
  assert.deepEqual(unlisted(resolve(SITE, '../../tests/tables')), []);
  const folder = await mkdtemp(join(tmpdir(), 'tables-'));
  try {
    await writeFile(join(folder, 'a_checks.h'), 'inline const Check kA[] = {};\ninline const Check kB[] = {};\n');
    await writeFile(join(folder, 'b_checks.h'), 'inline const Check kC[] = {};\n');
    await writeFile(join(folder, 'all_tables.h'),
      '#include "tests/tables/a_checks.h"\ninline const Table kTables[] = {\n    table("a", "A", kA),\n};\n');
    assert.deepEqual(unlisted(folder), ['all_tables.h does not list kB', 'all_tables.h does not include b_checks.h', 'all_tables.h does not list kC']);
  } finally {
    await rm(folder, { recursive: true });
  }
});
