// The single file: opened from disk with no network, it does what the served page does, asks for
// nothing, and is made the same from the same page.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { appendFileSync, cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { after, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { mouse } from './hands.mjs';
import {
  PATIENCE_MS, SITE, WIND, ask, coreInNode, drawn, handlePlace, isReady, launch, live, openView, pictureBox, report, text,
} from './lesson.mjs';
import { countColour, readPng } from './png.mjs';

const FILE = resolve(process.env.OFFLINE ?? join(SITE, '../lesson-offline.html'));
const MAKER = fileURLToPath(new URL('../../web/build-offline.mjs', import.meta.url));
/** Paint of core/theme.cpp. */
const FLOWN = 0x0072b2;
/** What the brief of the file allows, against the served files that it stands for. */
const WEIGHT = 1.3;

const core = await coreInNode();
const browser = await launch();
const folder = mkdtempSync(join(tmpdir(), 'offline-'));
after(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

/** @typedef {import('./lesson.mjs').Page} Page */

/**
 * One test on the file, from disk, in a browser without a network. What the page complains of,
 * and every request but for the file itself, fails it.
 * @param {string} name @param {string} at Query and hash. @param {(page: Page) => Promise<void>} body
 * @param {{mayComplain?: boolean}} [how]
 */
function onDisk(name, at, body, { mayComplain = false } = {}) {
  test(name, { timeout: 3 * PATIENCE_MS }, async () => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, offline: true });
    context.setDefaultTimeout(PATIENCE_MS);
    const page = await context.newPage();
    /** @type {string[]} */
    const complaints = [];
    /** @type {string[]} */
    const asked = [];
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type()) && !/GPU stall|software WebGL/i.test(message.text())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(String(error.stack ?? error)));
    context.on('request', (request) => {
      if (!/^(data|blob):/.test(request.url())) asked.push(request.url().replace(/[?#].*/, ''));
    });
    try {
      await page.goto(pathToFileURL(FILE).href + at);
      await isReady(page, /webgl=false/.test(at) ? 'core' : 'view');
      await body(page);
      await drawn(page);
      if (!mayComplain) assert.deepEqual(complaints, []);
      assert.deepEqual([...new Set(asked)], [pathToFileURL(FILE).href], 'nothing but the file itself');
    } finally {
      await context.close();
    }
  });
}

onDisk('from disk the page is ready, with the answers of the core, in its own letters', '#wind=200/30', async (page) => {
  const truth = core.evaluate('wind=200/30');
  assert.equal((await report(page)).headline, truth.headline);
  assert.ok((await text(page, '#happens')).includes(truth.headline));
  assert.match(await text(page, '.caution'), /not for navigation/i);
  await page.evaluate(() => document.fonts.ready);
  assert.ok(await page.evaluate(() => document.fonts.size === 2 && [...document.fonts].every((f) => f.status === 'loaded')));
});

onDisk('from disk it draws on its canvas', '', async (page) => {
  assert.equal(await page.locator('#picture > canvas#canvas').count(), 1);
  await ask(page, 'seek', (await live(page)).end_s);
  await page.locator('#next').click();
  const picture = readPng(await page.screenshot({ clip: await pictureBox(page) }));
  assert.ok(countColour(picture, FLOWN) > 1500, 'the flown track');
});

onDisk('from disk the wind is dragged and the flight played; the address follows', '', async (page) => {
  const from = await handlePlace(page, WIND);
  const hand = await mouse(page);
  await hand.down(from);
  await hand.move(from, { x: from.x + 14, y: from.y + 9 });
  await hand.up();
  await page.waitForFunction(() => /wind=/.test(location.hash) && location.hash === `#${globalThis.__lesson?.session.link()}`);
  assert.ok((await text(page, '#happens')).includes((await report(page)).headline));
  const { t_s } = await live(page);
  await page.locator('#play').click();
  await page.waitForFunction((was) => (globalThis.__lesson?.session.live().t_s ?? was) > was + 1, t_s);
});

onDisk('from disk every view and mode opens, lesson and cards included', '?webgl=false', async (page) => {
  for (const view of ['clearance', 'entry', 'wind', 'laps', 'miss', 'displays', 'limits', 'plan']) {
    await openView(page, view);
    assert.ok(await page.locator(`#view-${view}`).isVisible(), view);
  }
  for (const mode of ['lesson', 'practice', 'fly', 'winds', 'card']) {
    await page.locator(`#to-${mode}`).click();
    await page.locator(`#mode-${mode}`).waitFor();
    if (mode === 'winds') await page.waitForFunction(() => document.getElementById('winds-map')?.dataset.whole === 'true');
  }
  await page.locator('#to-lesson').click();
  await page.locator('#mode-lesson .lesson-title').first().waitFor();
});

/** @param {Page} page */
const state = (page) => page.evaluate(() => {
  if (!globalThis.__lesson) throw new Error('no lesson');
  return globalThis.__lesson.core.tutor().state();
});

onDisk('from disk a question of a check is answered, from every set built in, and progress is kept', '?webgl=false#mode=practice', async (page) => {
  const nothingYet = await page.evaluate(() => globalThis.__lesson?.core.tutor().progress());
  const sets = await page.locator('#practice-set option').evaluateAll((rows) => rows.map((row) => /** @type {HTMLOptionElement} */ (row).value));
  assert.deepEqual(sets, core.tutor().sets().map(({ id }) => id));
  for (const set of sets) {
    await page.locator('#practice-set').selectOption(set);
    await page.waitForFunction((id) => globalThis.__lesson?.core.tutor().state().set.id === id, set);
    await page.locator('#practice-check').click();
    await page.locator('#practice-question').waitFor();
    const { item } = await state(page);
    assert.ok(item && item.asked !== null, set);
    const step = item.steps[item.asked];
    if (step.kind === 'choice') await page.locator('#practice-form input[type=radio]').first().check();
    else {
      await page.locator('#practice-answer').fill(step.kind === 'seconds' ? '1:10' : '7');
      const side = page.locator('input[name=practice-side]').first();
      if (await side.count()) await side.check();
    }
    await page.locator('#practice-form button[type=submit]').click();
    await page.locator('#practice-verdict').waitFor();
    assert.ok((await state(page)).judged, set);
    await page.locator('#practice-stop').click();
  }
  const before = await page.evaluate(() => globalThis.__lesson?.core.tutor().progress());
  assert.notEqual(before, nothingYet);
  await page.reload();
  await isReady(page, 'core');
  await page.locator('#mode-practice').waitFor();
  assert.equal(await page.evaluate(() => globalThis.__lesson?.core.tutor().progress()), before, 'kept over a reload');
});

onDisk('from disk a set that an address names is refused in words, not fetched', '?webgl=false#mode=practice&set=other.json', async (page) => {
  await page.locator('#practice-set-problems').getByText('other.json').waitFor();
});

onDisk('what the file does not have it names, and links to nothing outside itself', '?webgl=false', async (page) => {
  const words = await text(page, '#left-out');
  for (const key of ['page.reading.link', 'page.sources.title', 'page.study.title']) {
    const all = JSON.parse(readFileSync(fileURLToPath(new URL('../../assets/words/en.json', import.meta.url)), 'utf8'));
    assert.ok(words.includes(all[key]), key);
  }
  const targets = await page.evaluate(() => [...document.querySelectorAll('[href], [src]')].map((at) => at.getAttribute('href') ?? at.getAttribute('src') ?? ''));
  assert.deepEqual(targets.filter((target) => !/^(#|data:)/.test(target)), []);
});

onDisk('the licences of others’ work come with the file, whole', '?webgl=false', async (page) => {
  const link = page.locator('footer a[download="notices.txt"]');
  const [file] = await Promise.all([page.waitForEvent('download'), link.click()]);
  assert.equal(file.suggestedFilename(), 'notices.txt');
  assert.deepEqual(readFileSync(await file.path()), readFileSync(join(SITE, 'notices.txt')));
});

onDisk('the file keeps a stricter policy than the page: no address at all may be asked', '?webgl=false', async (page) => {
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content') ?? '';
  assert.match(policy, /^default-src 'none'; script-src 'sha256-[\w+/=]{44}' 'sha256-[\w+/=]{44}' 'wasm-unsafe-eval'; style-src 'sha256-[\w+/=]{44}'; img-src data: blob:; font-src data:; base-uri 'none'; form-action 'none'$/);
  const tried = await page.evaluate(async () => {
    /** @type {string[]} */
    const refused = [];
    document.addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective));
    const script = document.createElement('script');
    script.textContent = 'window.ranInline = 1';
    document.head.append(script);
    const fetched = await fetch('data:,x').then(() => true, () => false);
    await new Promise((done) => { setTimeout(done); });
    return { refused, fetched, ran: 'ranInline' in window };
  });
  assert.deepEqual(tried, { refused: ['script-src-elem', 'connect-src'], fetched: false, ran: false });
}, { mayComplain: true});

test('the file weighs at most 1.3 times what it holds of the served page', () => {
  /** @param {string} name */
  const weight = (name) => statSync(join(SITE, name)).size;
  const names = readdirSync(SITE, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(SITE.length + 1));
  // What belongs to the pages that are left out, and to installing, is not counted for it.
  const held = names.filter((name) => !/^(sources|lesson|lesson-page|study|service-worker)\.(html|js|css)$|^icons\/|\.webmanifest$|\.schema\.json$|^contents\.spdx\.json$/.test(name));
  assert.ok(held.length > 50 && held.includes('core.wasm'));
  const ratio = statSync(FILE).size / held.reduce((sum, name) => sum + weight(name), 0);
  assert.ok(ratio <= WEIGHT, `${ratio.toFixed(3)} times`);
});

test('the same page gives the same file, to the byte', () => {
  const built = readFileSync(FILE);
  for (const name of ['a.html', 'b.html']) {
    const out = join(folder, name);
    execFileSync(process.execPath, [MAKER, '--site', SITE, '--out', out]);
    assert.ok(readFileSync(out).equals(built), `${name} differs from the build's`);
  }
});

test('a script that asks for a file which is not carried stops the build', () => {
  const site = join(folder, 'site');
  cpSync(SITE, site, { recursive: true });
  writeFileSync(join(site, 'extra.json'), '{}');
  appendFileSync(join(site, 'main.js'), "\nfetch('extra.json');\n");
  assert.throws(() => execFileSync(process.execPath, [MAKER, '--site', site, '--out', join(folder, 'c.html')], { stdio: 'pipe' }),
    /a script names extra\.json/);
});
