// What leaves the page: question sheet and key, the answers of a check as a table, the picture
// as a file, the handout.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { axeFindsNothing, fitsAt, tooSmall, WIDTHS } from './access.mjs';
import { drawn, lessons, report, SITE, text } from './lesson.mjs';
import { pagesOf, squeezed } from './pdf.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../shell/types').TutorSheet} TutorSheet */
/** @typedef {import('../../shell/types').TutorState} TutorState */

const AT = '?webgl=false#mode=practice';
const BUILD = /'([0-9a-f]{8})'/.exec(readFileSync(join(SITE, 'build.js'), 'utf8'))?.[1] ?? '';
/** Widths and heights in points; a browser may round to whole pixels. */
const PAPERS = { A4: [595.3, 841.9], Letter: [612, 792] };

/** The page's own print dialogue would wait for a person. @param {Page} page */
const noDialogue = (page) => page.addInitScript(() => { window.print = () => {}; });

/** @param {Page} page @param {number} seed */
async function useCode(page, seed) {
  const code = await page.evaluate((n) => globalThis.__lesson?.core.tutor().newCode(n) ?? '', seed);
  await page.locator('#practice-code').fill(code);
  return code;
}

/** @param {Page} page @param {string} code @param {number} count @returns {Promise<TutorSheet>} */
const sheetOf = (page, code, count) => page.evaluate(([c, n]) => {
  const tutor = globalThis.__lesson?.core.tutor();
  if (!tutor) throw new Error('no lesson');
  return tutor.sheet({ code: String(c), count: Number(n) });
}, [code, count]);

/** @param {Page} page @param {string} count @param {string} key */
async function printSheet(page, count, key) {
  const fold = page.locator('.practice-paper');
  if (await fold.getAttribute('open') === null) await fold.locator('summary').click();
  await page.locator('#sheet-count').selectOption(count);
  await page.locator('#sheet-key').selectOption(key);
  await page.locator('#sheet-print').click();
  await page.locator('#paper > *').first().waitFor({ state: 'attached' });
}

/** @param {string} words @param {string} what */
function holds(words, what) {
  assert.ok(squeezed(words).includes(squeezed(what)), `“${what}” is not in “${words}”`);
}

for (const [paper, [width, height]] of Object.entries(PAPERS)) {
  lesson.test(`a sheet of twelve with its key on ${paper}: the check's questions, and their answers behind them`, { at: AT, before: noDialogue }, async (page) => {
    const code = await useCode(page, 77);
    const { items, set } = await sheetOf(page, code, 12);
    assert.equal(items.length, 12);
    await printSheet(page, '12', 'right');
    const pages = pagesOf(await page.pdf({ format: /** @type {'A4' | 'Letter'} */ (paper), printBackground: true }));
    for (const one of pages) {
      assert.ok(Math.abs(one.width_pt - width) < 1.5 && Math.abs(one.height_pt - height) < 1.5, `${one.width_pt} × ${one.height_pt}`);
    }
    const key_at = pages.findIndex((one) => one.text.includes('Key to the questions'));
    assert.ok(key_at >= 2 && key_at < pages.length, `the key is on page ${key_at + 1} of ${pages.length}`);
    const sheet = pages.slice(0, key_at).map((one) => one.text).join(' ');
    const key = pages.slice(key_at).map((one) => one.text).join(' ');
    for (const item of items) {
      holds(sheet, item.question);
      holds(sheet, item.ask);
      // Asked on one page: no question is broken in two.
      assert.ok(pages.some((one) => squeezed(one.text).includes(squeezed(item.question + item.ask))), item.question);
      holds(key, item.right_text);
      assert.ok(!squeezed(key).includes(squeezed(item.steps[0].worked)), 'no worked steps are asked for');
    }
    for (const part of [sheet, key]) {
      for (const words of [set.title, `version ${set.version}`, code, `Build ${BUILD}`, 'Training aid, not for navigation']) holds(part, words);
    }
    holds(sheet, `${new URL(page.url()).origin}/#mode=practice&code=${code}&check=1`);
    assert.doesNotMatch(sheet, /\bname\b/i);
    // Printed: the page is itself again.
    assert.equal(await page.locator('#paper > *').count(), 0);
    assert.ok(await page.locator('#practice-go').isVisible());
  });
}

lesson.test('the check in the page asks what its sheet asks, and takes the key for right', { at: AT }, async (page) => {
  const code = await useCode(page, 4242);
  const { items } = await sheetOf(page, code, 12);
  await page.locator('#practice-check').click();
  const walked = await page.evaluate((/** @type {string[]} */ answers) => {
    const tutor = globalThis.__lesson?.core.tutor();
    if (!tutor) throw new Error('no lesson');
    return answers.map((right) => {
      const asked = tutor.state().item?.question;
      const { judged } = tutor.answer(right);
      tutor.next();
      return { asked, right: judged?.right };
    });
  }, items.map(({ right_text }) => right_text));
  assert.deepEqual(walked, items.map(({ question }) => ({ asked: question, right: true })));
});

lesson.test('how much of a sheet: six without a key, twenty-four with worked steps, another set', { at: `${AT}&set=left-turns`, before: noDialogue }, async (page) => {
  const code = await useCode(page, 5);
  const { items, set } = await sheetOf(page, code, 24);
  assert.equal(set.id, 'left-turns');
  await printSheet(page, '6', 'none');
  let words = pagesOf(await page.pdf({ format: 'A4' })).map((one) => one.text).join(' ');
  for (const [k, item] of items.entries()) assert.equal(squeezed(words).includes(squeezed(item.question)), k < 6, `question ${k + 1}`);
  assert.doesNotMatch(words, /Key to the questions/);
  holds(words, `set=left-turns&code=${code}`);
  await printSheet(page, '24', 'worked');
  words = pagesOf(await page.pdf({ format: 'Letter' })).map((one) => one.text).join(' ');
  for (const item of items) {
    holds(words, item.question);
    for (const step of item.steps) holds(words, step.worked);
  }
});

lesson.test('a code that is none prints nothing and says why', { at: AT, before: noDialogue }, async (page) => {
  await page.locator('.practice-paper summary').click();
  await page.locator('#practice-code').fill('?');
  await page.locator('#sheet-print').click();
  await page.locator('#sheet-problem').waitFor();
  assert.ok((await text(page, '#sheet-problem')).length > 10);
  assert.equal(await page.locator('#paper > *').count(), 0);
});

lesson.test('a sheet is black on white, also where the page is dark', { at: AT, before: noDialogue, colorScheme: 'dark' }, async (page) => {
  await useCode(page, 77);
  await printSheet(page, '12', 'right');
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const colours = await page.evaluate(() => [getComputedStyle(document.body).backgroundColor,
    ...[...document.querySelectorAll('#paper *')].map((el) => getComputedStyle(el).color)]);
  assert.equal(colours[0], 'rgb(255, 255, 255)');
  for (const colour of colours.slice(1)) assert.match(colour, /^rgb\((0, 0, 0|51, 51, 51)\)$/);
  assert.ok(!await page.locator('.top').isVisible());
});

lesson.test('the sheet’s choices fit, are large enough, and axe finds nothing', { at: AT }, async (page) => {
  await page.locator('.practice-paper summary').click();
  await fitsAt(page, WIDTHS);
  await page.setViewportSize({ width: 390, height: 844 });
  assert.deepEqual(await tooSmall(page, '.practice-paper :is(select, button)', 24), []);
  await axeFindsNothing(page, 'question sheet');
});

// --- the answers of a check ----------------------------------------------------------

/** A table after RFC 4180. @param {string} csv */
function rowsOf(csv) {
  /** @type {string[][]} */
  const rows = [];
  let row = /** @type {string[]} */ ([]);
  for (const [, quoted, plain, end] of csv.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/g)) {
    row.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end !== ',') {
      rows.push(row);
      row = [];
    }
  }
  return rows;
}

/** Answers through the page until `until` are answered; every third wrong. @param {Page} page @param {number} from @param {number} until */
async function answerCheck(page, from, until) {
  for (let k = from; k < until; k += 1) {
    const given = await page.evaluate(([at]) => {
      const tutor = globalThis.__lesson?.core.tutor();
      const state = tutor?.state();
      if (!tutor || !state?.item || !state.code) throw new Error('no item');
      const item = tutor.sheet({ code: state.code }).items[at];
      const wrong = { choice: item.choices.find(({ label }) => label !== item.right_text)?.value ?? '', direction: '1', degrees: '0', knots: '0', seconds: '9:59', correction: '17 left', hold: '5 left' }[item.kind];
      return { kind: item.kind, answer: at % 3 === 0 ? wrong : item.right_text };
    }, [k]);
    if (given.kind === 'choice') {
      const place = await page.evaluate((answer) => globalThis.__lesson?.core.tutor().state().item?.steps.at(-1)?.choices
        .findIndex(({ value, label }) => value === answer || label === answer), given.answer);
      await page.locator('#practice-form input[type=radio]').nth(place ?? 0).check();
    } else {
      const [number, side] = given.answer.replace(/[°,]| kt/g, ' ').trim().split(/\s+/);
      await page.locator('#practice-answer').fill(number);
      if (side) await page.locator(`input[name=practice-side][value=${side}]`).check();
    }
    await page.locator('#practice-form button[type=submit]').click();
    await page.locator('#practice-next').click();
  }
}

lesson.test('a finished check as a table, in a line, and as text', { at: AT, timezoneId: 'UTC' }, async (page) => {
  const code = await useCode(page, 9);
  const { items } = await sheetOf(page, code, 12);
  await page.locator('#practice-check').click();
  await answerCheck(page, 0, 12);
  const waiting = page.waitForEvent('download');
  await page.locator('[data-do=csv]').click();
  const download = await waiting;
  assert.equal(download.suggestedFilename(), `holding-check-${code}.csv`);
  const bytes = readFileSync(await download.path());
  assert.deepEqual([...bytes.subarray(0, 3)], [0xef, 0xbb, 0xbf]);
  const csv = bytes.toString('utf8').slice(1);
  assert.equal(csv.replaceAll('\r\n', '').search(/[\r\n]/), -1, 'every line ends with CR LF');
  const [head, ...rows] = rowsOf(csv);
  assert.deepEqual(head, ['seed', 'set', 'build', 'item', 'skill', 'given', 'correct', 'tolerance', 'right', 'hints', 'date']);
  assert.equal(rows.length, 12);
  const day = await page.evaluate(() => new Date().toISOString().slice(0, 10));
  for (const [k, row] of rows.entries()) {
    const one = Object.fromEntries(head.map((name, i) => [name, row[i]]));
    const { skill, right_text, tolerance } = items[k];
    assert.ok(one.given !== '', `what was given to ${k + 1}`);
    assert.deepEqual({ ...one, given: '' }, { seed: code, set: 'mixed@1', build: BUILD, item: String(k + 1), skill, given: '',
      correct: right_text, tolerance: tolerance === null ? '' : String(tolerance), right: k % 3 === 0 ? '0' : '1', hints: '0', date: day });
  }
  const { result } = await page.evaluate(() => /** @type {TutorState} */ (globalThis.__lesson?.core.tutor().state()));
  const counts = Object.fromEntries(result?.skills.map(({ skill, right, of }) => [skill, `${right}/${of}`]) ?? []);
  const line = `${code} mixed@1 E${counts.entry} H${counts.heading} W${counts.wind} T${counts.timing} ${day}`;
  await page.locator('#practice-answers summary').click();
  assert.equal(await page.locator('#practice-line').inputValue(), line);
  assert.equal((await page.locator('#practice-csv').inputValue()).replaceAll('\n', '\r\n'), csv);
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.locator('[data-do=line]').click();
  await page.waitForFunction(() => document.getElementById('live')?.textContent?.includes('Result copied'));
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), line);
  await fitsAt(page, WIDTHS);
  await page.setViewportSize({ width: 1280, height: 860 });
  await axeFindsNothing(page, 'a finished check');
});

lesson.test('answers given before the page was loaded again are left empty in the table', { at: AT }, async (page) => {
  const code = await useCode(page, 9);
  await page.locator('#practice-check').click();
  await answerCheck(page, 0, 5);
  await page.reload();
  await page.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  await page.locator('#practice-code').fill(code);
  await page.locator('#practice-check').click();
  await answerCheck(page, 5, 12);
  await page.locator('#practice-answers summary').click();
  const [head, ...rows] = rowsOf((await page.locator('#practice-csv').inputValue()).replaceAll('\n', '\r\n'));
  assert.deepEqual(rows.map((row) => row[head.indexOf('given')] !== ''), Array.from({ length: 12 }, (_, k) => k >= 5));
  assert.deepEqual(rows.map((row) => row[head.indexOf('right')]), Array.from({ length: 12 }, (_, k) => (k % 3 === 0 ? '0' : '1')));
});

// --- pictures ------------------------------------------------------------------------

/** The pixels of a PNG with 8 bits a channel. @param {Buffer} png */
function pixelsOf(png) {
  assert.equal(png.toString('latin1', 1, 4), 'PNG');
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  /** @type {Buffer[]} */
  const data = [];
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') data.push(png.subarray(at + 8, at + 8 + png.readUInt32BE(at)));
  }
  return { width, height, bytes: inflateSync(Buffer.concat(data)) };
}

/** @param {Page} page @param {string} button */
async function saved(page, button) {
  const waiting = page.waitForEvent('download');
  await page.locator(button).click();
  const download = await waiting;
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

for (const at of ['#wind=310/30', '?webgl=false#wind=310/30']) {
  lesson.test(`the picture as SVG and as PNG, ${at}`, { at }, async (page) => {
    const svg = await saved(page, '#save-svg');
    assert.equal(svg.name, 'holding-entry.svg');
    const words = svg.bytes.toString('utf8');
    const { summary, rollout } = await report(page);
    const read = await page.evaluate((source) => {
      const root = new DOMParser().parseFromString(source, 'image/svg+xml').documentElement;
      return { name: root.localName, title: root.querySelector('title')?.textContent, text: [...root.querySelectorAll('text')].map((el) => el.textContent),
        width: Number(root.getAttribute('width')), height: Number(root.getAttribute('height')), outside: root.querySelectorAll('[href], image, script').length };
    }, words);
    assert.equal(read.name, 'svg');
    assert.equal(read.title, summary);
    assert.ok(read.text.some((label) => /310.*30 kt/.test(label ?? '')), read.text.join(' | '));
    assert.ok(rollout && read.text.some((label) => label?.includes(Math.abs(rollout.cross_nm).toFixed(1))), read.text.join(' | '));
    assert.equal(read.outside, 0);
    assert.match(words, /font\/woff2;base64,/);
    const { width, height, bytes } = pixelsOf((await saved(page, '#save-png')).bytes);
    assert.equal(width, 2 * read.width);
    assert.equal(height, 2 * read.height);
    assert.ok(new Set(bytes.filter((_, k) => k % 97 === 0)).size > 8, 'the picture is blank');
    // The handles are of the page, not of the picture, and are back.
    assert.ok(!/r-handle/.test(words));
    assert.ok(/r-handle/.test(await page.evaluate(() => globalThis.__lesson?.session.svg() ?? '')));
  });
}

lesson.test('a dark page gives a dark picture', { at: '?webgl=false', colorScheme: 'dark' }, async (page) => {
  const paper = /r-paper s-area"[^>]*fill="(#[0-9a-f]{6})"/;
  const dark = paper.exec((await saved(page, '#save-svg')).bytes.toString('utf8'))?.[1] ?? '';
  await page.emulateMedia({ colorScheme: 'light' });
  await drawn(page);
  const light = paper.exec((await saved(page, '#save-svg')).bytes.toString('utf8'))?.[1] ?? '';
  assert.ok(parseInt(dark.slice(1, 3), 16) < 64, dark);
  assert.ok(parseInt(light.slice(1, 3), 16) > 192, light);
});

lesson.test('the handout has the case: picture, outcome, sum, plans, link, caution', { at: '?webgl=false#wind=310/30', before: noDialogue }, async (page) => {
  for (const [paper, [width]] of Object.entries(PAPERS)) {
    await page.locator('#print-handout').click();
    assert.equal(await page.locator('#paper svg').count(), 1);
    const pages = pagesOf(await page.pdf({ format: /** @type {'A4' | 'Letter'} */ (paper) }));
    assert.ok(Math.abs(pages[0].width_pt - width) < 1.5);
    const words = pages.map((one) => one.text).join(' ');
    const { outcome, sum, plans } = await report(page);
    for (const what of [outcome, ...sum, ...plans.map(({ name }) => name), 'Training aid, not for navigation', `Build ${BUILD}`, 'wind=310/30', 'Wind 310°']) holds(words, what);
    assert.equal(await page.locator('#paper > *').count(), 0);
  }
});
