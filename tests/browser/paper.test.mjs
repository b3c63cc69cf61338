// What leaves the page: question sheet and key, the answers of a check as a table, the picture
// as a file, the handout.
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { axeFindsNothing, fitsAt, tooSmall } from './access.mjs';
import { readCsv } from './csv.mjs';
import { ask, drawn, lessons, report, SITE, text } from './lesson.mjs';
import { pagesOf, squeezed } from './pdf.mjs';
import { readPng } from './png.mjs';
import { readQr } from './qr-read.mjs';

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

/** What the QR code on paper says; null where there is none. @param {Page} page */
async function qrText(page) {
  const drawing = await page.evaluate(() => {
    const svg = document.querySelector('#paper .paper-qr');
    return svg && { size: Number(svg.getAttribute('viewBox')?.split(' ')[2]), path: svg.querySelector('path:last-child')?.getAttribute('d') ?? '',
      width_mm: parseFloat(svg.getAttribute('width') ?? '') };
  });
  if (!drawing) return null;
  // Four light modules all around; none finer than a copier keeps.
  const count = drawing.size - 8;
  assert.ok(drawing.width_mm / drawing.size >= 0.45, `${drawing.width_mm} mm for ${drawing.size} modules`);
  const modules = Array.from({ length: count }, () => Array.from({ length: count }, () => false));
  for (const [run, x, y, length] of drawing.path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let k = 0; k < Number(length); k += 1) {
      const [row, column] = [Number(y) - 4, Number(x) - 4 + k];
      assert.ok(row >= 0 && row < count && column >= 0 && column < count, `${run} lies in the margin`);
      modules[row][column] = true;
    }
  }
  return readQr(modules).text;
}

/** What goes on paper comes over the network when it is first asked for. @param {import('./lesson.mjs').Page} page */
async function printHandout(page) {
  await page.locator('#print-handout').click();
  await page.locator('#paper > *').first().waitFor({ state: 'attached' });
}

/** As the browser's menu does: at once. @param {import('./lesson.mjs').Page} page */
async function printByMenu(page) {
  await page.locator('html[data-paper="ready"]').waitFor({ state: 'attached' });
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
}

for (const [paper, [width, height]] of Object.entries(PAPERS)) {
  lesson.test(`a sheet of twelve with its key on ${paper}: the check's questions, and their answers behind them`, { at: AT, before: noDialogue }, async (page) => {
    const code = await useCode(page, 77);
    const { items, set } = await sheetOf(page, code, 12);
    assert.equal(items.length, 12);
    await printSheet(page, '12', 'right');
    const link = `${new URL(page.url()).origin}/#mode=practice&code=${code}&check=1`;
    assert.equal(await qrText(page), link);
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
    for (const part of pages.map((one) => one.text)) {
      for (const words of [set.title, `version ${set.version}`, code, `Build ${BUILD}`, 'Training aid, not for navigation']) holds(part, words);
    }
    holds(sheet, link);
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
  await fitsAt(page, [320, 720, 1024]);
  await page.setViewportSize({ width: 390, height: 844 });
  assert.deepEqual(await tooSmall(page, '.practice-paper :is(select, button)', 24), []);
  await axeFindsNothing(page, 'question sheet');
});

// --- the answers of a check ----------------------------------------------------------

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
  const [head, ...rows] = readCsv(csv);
  for (const field of rows.flat()) assert.doesNotMatch(field, /^[=+\-@\t]/, 'a spreadsheet would reckon it');
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
  await fitsAt(page, [320, 1024]);
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
  const [head, ...rows] = readCsv((await page.locator('#practice-csv').inputValue()).replaceAll('\n', '\r\n'));
  assert.deepEqual(rows.map((row) => row[head.indexOf('given')] !== ''), Array.from({ length: 12 }, (_, k) => k >= 5));
  assert.deepEqual(rows.map((row) => row[head.indexOf('right')]), Array.from({ length: 12 }, (_, k) => (k % 3 === 0 ? '0' : '1')));
});

// --- pictures ------------------------------------------------------------------------

/** What a button saves, by its name in a folder of its own. @param {Page} page @param {string} button @param {string} folder */
async function saved(page, button, folder) {
  const waiting = page.waitForEvent('download');
  await page.locator(button).click();
  const download = await waiting;
  const path = join(folder, download.suggestedFilename());
  await download.saveAs(path);
  return { name: download.suggestedFilename(), path, bytes: readFileSync(path) };
}

/** @param {(folder: string) => Promise<void>} work */
async function inFolder(work) {
  const folder = mkdtempSync(join(tmpdir(), 'paper-'));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

lesson.test('the picture as SVG that stands alone, and as PNG', { at: '#wind=310/30' }, (page) => inFolder(async (folder) => {
  const svg = await saved(page, '#save-svg', folder);
  assert.equal(svg.name, 'hold-238-left-wind-310-30.svg');
  const words = svg.bytes.toString('utf8');
  const { summary, rollout } = await report(page);
  // The handles are of the page, not of the picture, and are back.
  assert.ok(!/r-handle/.test(words));
  assert.ok(/r-handle/.test(await page.evaluate(() => globalThis.__lesson?.session.svg() ?? '')));

  const alone = await page.context().newPage();
  /** @type {string[]} */
  const asked = [];
  alone.on('request', (request) => { if (!request.url().startsWith('data:')) asked.push(request.url()); });
  await alone.goto(pathToFileURL(svg.path).href);
  assert.deepEqual(asked, [pathToFileURL(svg.path).href]);
  const read = await alone.evaluate(async () => {
    const root = document.documentElement;
    await document.fonts.ready;
    return { name: root.localName, title: root.querySelector('title')?.textContent, text: [...root.querySelectorAll('text')].map((el) => el.textContent ?? ''),
      width: Number(root.getAttribute('width')), height: Number(root.getAttribute('height')), outside: root.querySelectorAll('[href], image, script').length,
      fonts: [...document.fonts].map(({ status }) => status) };
  });
  assert.equal(read.name, 'svg');
  assert.equal(read.title, summary);
  assert.deepEqual(read.fonts, ['loaded', 'loaded']);
  assert.equal(read.outside, 0);
  const labels = read.text.join(' | ');
  assert.match(labels, /310.*30 kt/);
  assert.ok(rollout && labels.includes(Math.abs(rollout.cross_nm).toFixed(1)), labels);

  // In a browser the file has the colours of the PNG.
  await alone.setViewportSize({ width: read.width, height: read.height });
  const seen = readPng(await alone.screenshot());
  const png = readPng((await saved(page, '#save-png', folder)).bytes);
  assert.deepEqual([png.width, png.height], [2 * read.width, 2 * read.height]);
  let same = 0;
  let painted = 0;
  for (let y = 1; y < read.height; y += 2) {
    for (let x = 1; x < read.width; x += 2) {
      const [a, b] = [seen.at(x, y), png.at(2 * x, 2 * y)];
      if (a.every((v, k) => Math.abs(v - b[k]) < 32)) same += 1;
      if (b[0] < 128) painted += 1;
    }
  }
  const all = Math.floor(read.width / 2) * Math.floor(read.height / 2);
  assert.ok(same > 0.95 * all, `${same} of ${all} alike`);
  assert.ok(painted > 0.002 * all, `only ${painted} of ${all} painted dark`);
  await alone.close();
}));

lesson.test('a dark page gives a dark picture', { at: '?webgl=false', colorScheme: 'dark' }, (page) => inFolder(async (folder) => {
  const paper = /r-paper s-area"[^>]*fill="(#[0-9a-f]{6})"/;
  const dark = paper.exec((await saved(page, '#save-svg', folder)).bytes.toString('utf8'))?.[1] ?? '';
  await page.emulateMedia({ colorScheme: 'light' });
  await drawn(page);
  const light = paper.exec((await saved(page, '#save-svg', folder)).bytes.toString('utf8'))?.[1] ?? '';
  assert.ok(parseInt(dark.slice(1, 3), 16) < 64, dark);
  assert.ok(parseInt(light.slice(1, 3), 16) > 192, light);
}));

// --- pages on paper ------------------------------------------------------------------

lesson.test('Explore prints as a handout of the case on one page, by its button or by the browser', { at: '?webgl=false#wind=310/30', before: noDialogue, colorScheme: 'dark' }, async (page) => {
  for (const [paper, [width]] of Object.entries(PAPERS)) {
    for (const by_button of [true, false]) {
      if (by_button) {
        await printHandout(page);
        assert.equal(await qrText(page), `${new URL(page.url()).origin}/#wind=310/30`);
        assert.equal(await page.locator('#paper .paper-picture svg').count(), 1);
      }
      const pages = pagesOf(await page.pdf({ format: /** @type {'A4' | 'Letter'} */ (paper) }));
      assert.equal(pages.length, 1, paper);
      assert.ok(Math.abs(pages[0].width_pt - width) < 1.5);
      const words = pages[0].text;
      const { outcome, sum, plans } = await report(page);
      for (const what of [outcome, ...sum, ...plans.map(({ name }) => name), 'Training aid, not for navigation', `Build ${BUILD}`, 'wind=310/30', 'Wind 310°']) holds(words, what);
      assert.equal(await page.locator('#paper > *').count(), 0);
    }
  }
});

for (const [hidden, gone, kept] of /** @type {const} */ ([
  ['outcome,exact', ['outcome', 'exact'], ['sum', 'plans']], ['sum,plans', ['sum', 'plans', 'exact'], ['outcome']]])) {
  lesson.test(`the handout has nothing of what is hidden: ${hidden}`, { at: `?webgl=false&embed=1&hide=${hidden}#wind=310/30`, before: noDialogue }, async (page) => {
    const { outcome, sum, plans } = await report(page);
    const exact = plans.filter(({ id }) => id.startsWith('exact'));
    assert.equal(exact.length, 3);
    /** @type {Record<string, string[]>} */
    const words = { outcome: [outcome], sum, exact: exact.map(({ name }) => name), plans: plans.filter((plan) => !exact.includes(plan)).map(({ name }) => name) };
    for (const by_button of [true, false]) {
      if (by_button) await printHandout(page);
      else await printByMenu(page);
      const lines = await page.locator('#paper .paper-picture .r-exact').count();
      assert.equal(lines > 0, !hidden.includes('exact'), `${lines} of the exact plan's in the picture`);
      const address = `${new URL(page.url()).origin}/?hide=${hidden}#wind=310/30`;
      assert.equal(await page.locator('#paper .paper-link span').textContent(), address, 'what it leads to hides the same');
      const [{ text: printed }] = pagesOf(await page.pdf({ format: 'A4' }));
      for (const what of kept.flatMap((name) => words[name])) holds(printed, what);
      for (const what of gone.flatMap((name) => words[name])) assert.ok(!squeezed(printed).includes(squeezed(what)), `“${what}” is printed`);
    }
  });
}

lesson.test('a link too long for a QR code stands in words alone', { before: noDialogue,
  at: '?webgl=false#inbound=101&turns=right&altitude=6500&isa=12&ias=113&bank=20&wind=213/27&arrive=217&heading=141&time=1:07&timer=level&intercept=35&laps=5&adjust=exact&book=icao&parallel=fix&fix=MIVOR&efc=17:20&elevation=300&aid=ndb&roll=5' }, async (page) => {
  await printHandout(page);
  assert.equal(await qrText(page), null);
  assert.ok(((await page.locator('#paper .paper-link').textContent()) ?? '').includes('#inbound=101'));
});

for (const mode of ['lesson', 'practice']) {
  lesson.test(`printing leaves the picture of a question as it was: ${mode}`, { at: `?webgl=false#mode=${mode}` }, async (page) => {
    await page.locator(`#mode-${mode}`).waitFor();
    if (mode === 'practice') await page.locator('#practice-check').click();
    await page.locator(`#${mode}-form button[type=submit]`).waitFor();
    const handles = async () => (await ask(page, 'svg', 'light')).includes('r-handle');
    assert.equal(await handles(), false);
    await page.mouse.move(300, 300);
    await printByMenu(page);
    assert.ok(await page.locator('#picture-printed svg').count());
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    assert.equal(await handles(), false, 'nothing to drag');
    // In Explore there are some, and they stay.
    await page.locator('#to-explore').click();
    await page.locator(`#mode-${mode}`).waitFor({ state: 'hidden' });
    assert.equal(await handles(), true);
    const saved = page.waitForEvent('download');
    await page.locator('#save-svg').click();
    await saved;
    assert.equal(await handles(), true, 'still there');
  });
}

lesson.test('the other modes print their words with the picture as SVG, light, without controls', { at: '#mode=practice', colorScheme: 'dark' }, async (page) => {
  await page.locator('#practice-check').click();
  await page.locator('#practice-form button[type=submit]').waitFor();
  const asked = await page.evaluate(() => globalThis.__lesson?.core.tutor().state().item?.question ?? '');
  await printByMenu(page);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  assert.ok(await page.locator('#picture-printed svg').isVisible());
  for (const hidden of ['#picture', '.transport', '.modes', '.tools', '#practice-form button']) assert.ok(!await page.locator(hidden).first().isVisible(), hidden);
  assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor), 'rgb(255, 255, 255)');
  assert.ok((await page.evaluate(() => document.body.innerText)).replace(/\s+/g, ' ').includes(asked));
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  assert.equal(await page.locator('#picture-printed svg').count(), 0);
});
