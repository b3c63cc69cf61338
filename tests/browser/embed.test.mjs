// The page in another page's frame: how it fits, what it tells, what it can do without, and what
// an instructor hides and fixes.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { axeFindsNothing, fitsAt, tooSmall } from './access.mjs';
import { shelved } from './course-files.mjs';
import { drawnIn, giveSomeAnswer, heardOf, hears, tell, twoSites } from './frames.mjs';
import { finger, mouse } from './hands.mjs';
import { INBOUND, PATIENCE_MS, SITE, WIND, ask, drawn, handlePlace, isReady, lessons, pictureBox, report, text, unfold } from './lesson.mjs';

const lesson = await lessons();
const sites = await twoSites({ 'Access-Control-Allow-Origin': '*' });

/** @type {typeof import('../../shell/origin.js')} */
const { originOf } = await shelved('origin.js');

/** @typedef {import('./lesson.mjs').Page} Page */

// --- layout ----------------------------------------------------------------------------------

lesson.test('the layout for a frame fits from 320 to 800 px, with the caution in view and a way out',
  { at: '?webgl=false&embed=1&host=https://school.example&hide=exact#wind=310/22' }, async (page) => {
    await fitsAt(page, [320, 390, 560, 719, 720, 800]);
    assert.match(await text(page, '.caution'), /Training aid, not for navigation/);
    assert.equal(await page.getByRole('heading', { level: 1 }).count(), 1, 'a screen reader still finds the heading');
    assert.equal(await page.locator('.theme').isVisible(), false);
    const way_out = page.locator('#own-page');
    await way_out.focus();
    const url = new URL(await way_out.getAttribute('href') ?? '', page.url());
    assert.equal(url.search, '?webgl=false&hide=exact', 'the frame’s own keys stay behind');
    assert.equal(url.hash, '#wind=310/22');
    await axeFindsNothing(page, 'embedded');
  });

// --- hide and lock ---------------------------------------------------------------------------

/** Something of each part, and what goes with it. @type {Record<string, {at: string, also?: string[]}>} */
const OF_PART = {
  modes: { at: '#to-practice' }, views: { at: '#tab-wind' }, tools: { at: '#undo' }, clock: { at: '#play' }, readings: { at: '.strip' },
  zoom: { at: '#fit' }, outcome: { at: '#happens' }, plans: { at: '#plans input[value=still-air]', also: ['exact'] },
  exact: { at: '#plans input[value=exact]' }, sum: { at: '#sum' }, fields: { at: '#f-wind-kt' }, layers: { at: '#layers input[value=marks]' },
  paper: { at: '#print-handout' },
};

lesson.test('each part that can be hidden is, and no other with it', { at: '?webgl=false' }, async (page) => {
  await unfold(page);
  const [, list = ''] = /^export const PARTS = \[(.*)\];$/m.exec(readFileSync(new URL('../../shell/instructor.js', import.meta.url), 'utf8')) ?? [];
  const parts = [...list.matchAll(/'([a-z]+)'/g)].map(([, name]) => name);
  assert.deepEqual([...parts].sort(), Object.keys(OF_PART).sort());
  // By the same attribute as the address sets it.
  const gone = (/** @type {string} */ hidden) => page.evaluate(([hide, all]) => {
    document.documentElement.dataset.hide = hide;
    return Object.entries(all).filter(([, { at }]) => !document.querySelector(at)?.checkVisibility({ visibilityProperty: true })).map(([name]) => name);
  }, /** @type {const} */ ([hidden, OF_PART]));
  assert.deepEqual(await gone(''), []);
  for (const part of parts) assert.deepEqual((await gone(part)).sort(), [part, ...OF_PART[part].also ?? []].sort(), part);
  await page.goto(`${lesson.url}?webgl=false&hide=${parts.join(',')}`);
  await isReady(page, 'core');
  await unfold(page);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.hide), parts.join(' '));
  assert.equal(await page.locator('#instructor-unknown').isVisible(), false);
  assert.equal(await page.locator('#field-wind-from').isVisible(), false);
});

lesson.test('a hidden outcome is not in the picture, its words, the handout or what is announced; the lesson tells it', { at: '?webgl=false&hide=outcome#wind=310/25' }, async (page) => {
  const { headline, summary } = /** @type {{headline: string, summary: string}} */ (await report(page));
  assert.match(headline, /short/);
  const said = () => page.evaluate(() => ['picture', 'summary', 'live'].map((id) => document.getElementById(id)?.textContent ?? '').join(' '));
  /** @param {string} where */
  const miss = (where) => page.locator(`${where} .r-miss`).count();
  assert.equal(await miss('#picture'), 0);
  assert.ok((await said()).includes(summary) && !/short/.test(await said()), await said());
  await page.locator('#f-wind-kt').fill('20');
  await page.locator('#f-wind-kt').press('Enter');
  // Longer than what is announced after a change takes.
  await page.waitForTimeout(1200);
  assert.doesNotMatch(await said(), /short/);
  await page.evaluate(() => globalThis.dispatchEvent(new Event('beforeprint')));
  await page.locator('.paper-picture svg').waitFor({ state: 'attached' });
  assert.equal(await miss('.paper-picture'), 0);
  assert.doesNotMatch(await text(page, '.paper-picture'), /short/);
  await page.evaluate(() => globalThis.dispatchEvent(new Event('afterprint')));
  await page.evaluate(() => { location.hash = '#mode=practice'; });
  await page.locator('#mode-practice').waitFor();
  assert.equal((await ask(page, 'layers')).miss, true);
  await page.evaluate(() => { location.hash = '#'; });
  await page.locator('#f-wind-kt').waitFor();
  assert.equal((await ask(page, 'layers')).miss, false);
});

const RULES = '?embed=1&hide=modes,exact,modez&lock=wind,turns,rule,nothing#wind=310/22';

/** Wind and turns are as the instructor had them. @param {Page} page */
async function holds(page) {
  const { fields } = await report(page);
  assert.equal(fields.wind, '310/22');
  assert.equal(fields.turns, 'left');
}

/** Where a handle would be if it could be taken. @param {Page} page @param {number} which */
async function wouldBe(page, which) {
  const link = await ask(page, 'link');
  await ask(page, 'lock', [], '');
  const at = await handlePlace(page, which);
  await ask(page, 'lock', ['wind', 'windref', 'variation', 'later', 'turns', 'rule'], link);
  return at;
}

for (const [how, at, wanted, hand] of /** @type {const} */ ([
  ['mouse on the canvas', RULES, {}, mouse],
  ['touch on the SVG', RULES.replace('?', '?webgl=false&'), { hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } }, finger]])) {
  lesson.test(`what is fixed is not changed by ${how}; what is not fixed is`, { at, ...wanted }, async (page) => {
    const taken = await hand(page);
    assert.equal(await ask(page, 'handle', WIND), null);
    for (const [which, changes] of /** @type {const} */ ([[WIND, false], [INBOUND, true]])) {
      const from = changes ? await handlePlace(page, which) : await wouldBe(page, which);
      const before = await ask(page, 'link');
      await taken.down(from);
      await taken.move(from, { x: from.x - 12, y: from.y + 16 });
      await taken.up();
      await drawn(page);
      await holds(page);
      if (changes) assert.notEqual(await ask(page, 'link'), before);
      else assert.equal(await ask(page, 'link'), before);
    }
  });
}

lesson.test('what is fixed is said, and not changed by keyboard, plan, report, undo, reset or address; unknown names are named',
  { at: RULES.replace('?', '?webgl=false&'), mayComplain: false }, async (page) => {
    assert.equal(await page.locator('.modes').isVisible(), false);
    assert.equal(await page.locator('#plans input[value=exact]').isVisible(), false);
    assert.equal((await ask(page, 'layers')).exact, false);
    const unknown = await text(page, '#instructor-unknown');
    assert.match(unknown, /hide: .*“modez”.*modes, views, tools/);
    assert.match(unknown, /lock: .*“nothing”.*all, hold, wind/);
    assert.equal(await text(page, '#fixed-said'), 'Fixed by your instructor: The wind · Turns · Rule.');
    assert.match(await text(page, '#field-wind-from'), /Fixed by your instructor/);
    assert.equal(await page.locator('#f-wind-kt').isDisabled(), true);
    assert.equal(await page.locator('#plans input:enabled').count(), 0, 'a fixed rule fixes the plans');

    // Every control that the keyboard reaches, with the keys that change values.
    await unfold(page);
    await page.locator('#f-inbound').focus();
    for (let i = 0; i < 30; i += 1) {
      for (const key of ['ArrowUp', 'ArrowRight', 'Space']) {
        if (await page.evaluate(() => document.activeElement?.matches('input:not([type=checkbox])'))) await page.keyboard.press(key);
      }
      await page.keyboard.press('Tab');
    }
    assert.notEqual((await report(page)).fields.inbound, '238', 'the keyboard did change what is free');
    await holds(page);
    await page.locator('#undo').click();
    await holds(page);
    await page.locator('#reset').click();
    await holds(page);
    assert.equal((await report(page)).fields.inbound, '238');

    await page.locator('#tab-wind').click();
    await page.locator('#wind-said').fill('27015KT');
    await page.locator('#wind-use').click();
    await page.waitForFunction(() => /instructor/.test(document.getElementById('live')?.textContent ?? ''));
    await holds(page);
    await page.evaluate(() => { location.hash = 'wind=90/40&turns=right&inbound=120'; });
    await page.waitForFunction(() => globalThis.__lesson?.session.report().fields.inbound === '120');
    await holds(page);
    await page.waitForFunction(() => location.hash.includes('wind=310/22'));
    assert.match(page.url(), /lock=wind,turns,rule,nothing/);
  });

lesson.test('all can be fixed, also in the hash', { at: '?webgl=false#inbound=120&lock=all&hide=tools' }, async (page) => {
  assert.match(await text(page, '#fixed-said'), /This scene is fixed/);
  assert.equal(await page.locator('.field.fixed').count(), await page.locator('.field[id^=field-]').count());
  assert.equal(await page.locator('#undo').isVisible(), false);
  await page.locator('#tab-laps').click();
  await page.waitForFunction(() => /view=laps/.test(location.hash));
  assert.equal(new URL(page.url()).hash, '#inbound=120&view=laps&lock=all&hide=tools');
});

// --- copy and share --------------------------------------------------------------------------

/** Stands in for the browser's ways of handing an address on. @param {Page} page @param {{clipboard?: boolean, command?: boolean}} can */
const hands = (page, can) => page.evaluate(({ clipboard, command }) => {
  const stub = /** @type {any} */ (globalThis);
  stub.handed = [];
  Object.defineProperty(navigator, 'clipboard', { configurable: true, value: {
    writeText: async (/** @type {string} */ words) => {
      if (!clipboard) throw new DOMException('not in this frame', 'NotAllowedError');
      stub.handed.push(['clipboard', words]);
    } } });
  document.execCommand = () => {
    if (command) stub.handed.push(['command', /** @type {HTMLTextAreaElement} */ (document.activeElement).value]);
    return Boolean(command);
  };
}, can);

/** @param {Page} page */
const handed = (page) => page.evaluate(() => /** @type {any} */ (globalThis).handed);

lesson.test('copying falls back from clipboard to command to a marked field, and says “Copied”',
  { at: '?webgl=false&embed=1&lock=wind#wind=310/22' }, async (page) => {
    const address = `${lesson.url}?webgl=false&lock=wind#wind=310/22`;
    assert.equal(await page.locator('#share').isVisible(), false, 'no way to share, no button');
    await hands(page, { clipboard: true });
    await page.locator('#copy').click();
    await page.waitForFunction(() => document.getElementById('live')?.textContent === 'Copied');
    assert.deepEqual(await handed(page), [['clipboard', address]]);
    await hands(page, { command: true });
    await page.locator('#copy').click();
    await page.waitForFunction(() => /** @type {any} */ (globalThis).handed.length === 1);
    assert.deepEqual(await handed(page), [['command', address]]);
    await hands(page, {});
    await page.locator('#copy').click();
    await page.locator('#copy-text').waitFor();
    assert.equal(await page.evaluate(() => getSelection()?.toString() || /** @type {HTMLInputElement} */ (document.activeElement).value), address);
  });

lesson.test('with a way to share there is a button; what is given up is let go, what fails is copied', { at: '?webgl=false#wind=310/22',
  before: (page) => page.addInitScript(() => {
    navigator.share = async (what) => {
      const { outcome, handed: all } = /** @type {any} */ (globalThis);
      all.push([outcome || 'share', what?.url]);
      if (outcome) throw new DOMException('no', outcome);
    };
  }) }, async (page) => {
  const address = `${lesson.url}?webgl=false#wind=310/22`;
  await hands(page, { clipboard: true });
  let so_far = /** @type {string[]} */ ([]);
  for (const [outcome, then] of /** @type {const} */ ([['', ['share']], ['AbortError', ['AbortError']], ['NotAllowedError', ['NotAllowedError', 'clipboard']]])) {
    await page.evaluate((name) => { /** @type {any} */ (globalThis).outcome = name; }, outcome);
    await page.locator('#share').click();
    so_far = [...so_far, ...then];
    await page.waitForFunction((n) => /** @type {any} */ (globalThis).handed.length === n, so_far.length);
    assert.deepEqual(await handed(page), so_far.map((way) => [way, address]));
  }
});

// --- frames of another site ------------------------------------------------------------------

const NOT_KEPT = /keeps nothing for this page/;

/** Draws, flies, practises; says that nothing is kept. @param {import('./frames.mjs').Frame} frame */
async function works(frame) {
  assert.ok(await frame.locator('#picture svg').isVisible());
  await frame.locator('#play').click();
  await frame.waitForFunction(() => (globalThis.__lesson?.session.live().t_s ?? 0) > 0);
  await frame.locator('#play').click();
  await frame.locator('#f-wind-kt').fill('31');
  await frame.waitForFunction(() => /31 kt/.test(document.querySelector('#picture svg')?.textContent ?? ''));
  await frame.locator('#to-practice').click();
  await frame.locator('#mode-practice').waitFor();
  assert.match((await frame.locator('#practice-kept').textContent()) ?? '', NOT_KEPT);
  await frame.locator('#practice-check').click();
  await giveSomeAnswer(frame, 'Enter');
  await frame.locator('#practice-next').click();
  await giveSomeAnswer(frame);
}

for (const [how, attributes] of [['of another site, without allow', ''], ['sandboxed to scripts alone', 'sandbox="allow-scripts"']]) {
  test(`in a frame ${how} the page draws, flies and practises, and copies as far as it may`, async () => {
    const { page, frame, close } = await sites.openHost(sites.page('?webgl=false&embed=1', `${attributes} width="800" height="760"`));
    assert.equal(await frame.evaluate(() => {
      try {
        return localStorage.length >= 0;
      } catch {
        return false;
      }
    }), false, 'no storage here, or this test shows nothing');
    await works(frame);
    await frame.locator('#copy').click();
    await frame.waitForFunction(() => document.getElementById('live')?.textContent === 'Copied' || document.getElementById('copy-fallback')?.hidden === false);
    assert.deepEqual(await heardOf(page, 'ready'), [], 'no host is named, so none is told');
    await close();
  });
}

test('a sandboxed frame whose server does not let it have the modules says that it cannot start', async () => {
  const { frame, close } = await sites.openHost(
    `<!doctype html><title>Host</title><iframe title="Lesson" sandbox="allow-scripts" src="${lesson.url}?webgl=false"></iframe>`, {}, 'not-started');
  assert.match(await frame.locator('#not-started').innerText(), /could not be loaded/);
  await close();
});

test('the single file needs no header of its server in a frame sandboxed to scripts alone', async () => {
  const server = await serve(join(SITE, '..'));
  const { frame, complaints, close } = await sites.openHost(
    `<!doctype html><title>Host</title><iframe title="Lesson" sandbox="allow-scripts" width="800" height="760" src="${server.url}lesson-offline.html?webgl=false&amp;embed=1"></iframe>`);
  await works(frame);
  assert.deepEqual(complaints, []);
  await close();
  await server.close();
});

test('the height is told, follows the content, and comes to rest at every width', async () => {
  const FOLLOWS = `<script>addEventListener('message', ({ data }) => { if (data.type === 'lesson-height') { (globalThis.heights ??= []).push(data); document.querySelector('iframe').height = data.height; }
 if (data.subject === 'lti.frameResize') (globalThis.canvas ??= []).push(data); });</script>`;
  const { page, frame, close } = await sites.openHost(`<!doctype html><html lang="en"><title>Host</title><body>${FOLLOWS}
<iframe title="Lesson" style="border:0" src="${sites.lesson}?webgl=false&amp;embed=1" width="320" height="300"></iframe>`, { viewport: { width: 1400, height: 900 } });
  const told = () => page.evaluate(() => /** @type {any} */ (globalThis).heights?.at(-1));
  const measured = () => frame.evaluate(() => ({ height: Math.round(document.documentElement.getBoundingClientRect().height), framed: innerHeight }));
  /** Once the page in the frame is as high as was told last, and the frame with it. */
  async function rests() {
    for (const until = Date.now() + PATIENCE_MS; ;) {
      const { height, framed } = await measured();
      const last = await told();
      if (last?.height === height && framed === height) return height;
      assert.ok(Date.now() < until, `told ${last?.height}, measured ${height} in a frame of ${framed}`);
      await drawnIn(frame);
    }
  }
  for (const [width, mode] of /** @type {const} */ ([[320, ''], [560, '#to-lesson'], [719, '#to-practice'], [800, '#to-card'], [1300, '#to-explore']])) {
    await page.evaluate((w) => { /** @type {HTMLIFrameElement} */ (document.querySelector('iframe')).width = String(w); }, width);
    // The frame has a process of its own, and hears of its width later.
    await frame.waitForFunction((w) => innerWidth === w, width);
    if (mode) {
      await frame.locator(mode).click();
      await frame.waitForFunction((name) => document.body.dataset.mode === name, mode.replace('#to-', ''));
    }
    await drawnIn(frame);
    const height = await rests();
    assert.deepEqual(await told(), { type: 'lesson-height', v: 1, height }, `${width} px`);
    assert.deepEqual(await page.evaluate(() => /** @type {any} */ (globalThis).canvas.at(-1)), { subject: 'lti.frameResize', height });
    assert.equal(await frame.evaluate(() => document.documentElement.scrollHeight > innerHeight + 1), false, 'one scrollbar at most');
    // However high the frame is made, the page is no higher.
    await page.evaluate(() => { /** @type {HTMLIFrameElement} */ (document.querySelector('iframe')).height = '5000'; });
    await frame.waitForFunction(() => innerHeight === 5000);
    await drawnIn(frame);
    assert.deepEqual(await measured(), { height, framed: 5000 }, `${width} px, high frame`);
    await page.evaluate((h) => { /** @type {HTMLIFrameElement} */ (document.querySelector('iframe')).height = String(h); }, height);
  }
  await close();
});

// --- messages --------------------------------------------------------------------------------

const DOC = readFileSync(new URL('../../docs/embedding.md', import.meta.url), 'utf8');

test('the host page of the document sets scenes and hears of answers', async () => {
  const written = /```html\n(<!doctype[^]*?)```/.exec(DOC)?.[1] ?? '';
  const html = written.replaceAll('https://lesson.example/?', `${sites.lesson}?webgl=false&amp;`).replaceAll('https://lesson.example', sites.lesson.replace(/\/$/, ''))
    .replaceAll('https://school.example', sites.host);
  const { page, frame, complaints, close } = await sites.openHost(html);
  await page.locator('#windy').click();
  await page.waitForFunction(() => /wind=330\/40/.test(document.getElementById('said')?.textContent ?? ''));
  assert.equal(await frame.evaluate(() => globalThis.__lesson?.session.link()), 'wind=330/40');
  await frame.waitForFunction(() => /wind=330\/40/.test(location.hash));
  assert.ok(Number(await page.locator('iframe').getAttribute('height')) > 900, 'the frame follows the height');
  await frame.locator('#to-practice').click();
  await frame.locator('#practice-check').click();
  await giveSomeAnswer(frame);
  await page.waitForFunction(() => /(right|not yet)\.$/.test(document.getElementById('said')?.textContent ?? ''));
  assert.deepEqual(complaints, []);
  await close();
});

test('every message of the document is understood, and what happens is told', async () => {
  const { page, frame, complaints, close } = await sites.openHost(sites.page(`?webgl=false&embed=1&lock=wind&host=${sites.host}#inbound=120`));
  const [ready] = await hears(page, 'ready');
  assert.equal(ready.v, 1);
  assert.ok((await frame.locator('#host-said').innerText()).includes(`(${sites.host})`), 'the learner is told who hears');
  assert.equal(ready.mode, 'explore');
  assert.equal(ready.link, 'inbound=120');
  assert.equal(ready.address, `${sites.lesson}?webgl=false&lock=wind#inbound=120`);
  assert.ok(await page.evaluate(({ origin }) => /** @type {any} */ (globalThis).heard.every((/** @type {any} */ m) => m.origin === origin && m.framed), { origin: new URL(sites.lesson).origin }));
  const lessonSays = (/** @type {string} */ kind, more = {}) => tell(page, { lesson: 'holding-entry', v: 1, kind, ...more });

  await lessonSays('hello', { id: 'late' });
  assert.equal((await hears(page, 'ready', 2))[1].id, 'late');

  // The wind is fixed to the learner, and the host's to set.
  await lessonSays('scene', { link: '#wind=200/30&mode=fly&lock=all&nonsense=1', id: 7 });
  const scene = (await hears(page, 'scene')).find(({ id }) => id === 7);
  assert.equal(scene.link, 'wind=200/30');
  assert.deepEqual(scene.problems.map((/** @type {any} */ p) => p.key), ['nonsense']);
  await frame.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=200/30');
  await frame.evaluate(() => globalThis.__lesson?.session.set('wind', '90/10'));
  assert.equal(await frame.evaluate(() => globalThis.__lesson?.session.link()), 'wind=200/30');

  await lessonSays('report', { id: 8 });
  const [told] = await hears(page, 'report');
  assert.equal(told.id, 8);
  assert.equal(told.report.fields.wind, '200/30');
  await frame.locator('#f-inbound').fill('130');
  await frame.locator('#f-inbound').press('Tab');
  await frame.waitForFunction(() => /inbound=130/.test(location.hash));
  await lessonSays('report', { id: 'settled' });
  await hears(page, 'report', 2);
  const scenes = await heardOf(page, 'scene');
  assert.deepEqual(scenes.slice(scenes.findIndex(({ id }) => id === 7)).map(({ id, link }) => [id, link]),
    [[7, 'wind=200/30'], [undefined, 'inbound=130&wind=200/30']], 'a message makes one scene known, and so does the learner');

  await lessonSays('mode', { mode: 'practice' });
  assert.equal((await hears(page, 'mode'))[0].mode, 'practice');
  // While practice shows scenes of its own, the learner's waits, and is the host's all the same.
  await frame.locator('#practice-check').click();
  await lessonSays('scene', { link: 'wind=250/15', id: 9 });
  await page.waitForFunction(() => /** @type {any} */ (globalThis).heard.some((/** @type {any} */ m) => m.data.id === 9));
  for (let n = 1; n <= 12; n += 1) {
    await giveSomeAnswer(frame);
    if (n < 12) await frame.locator('#practice-next').click();
  }
  const answers = await hears(page, 'answer', 12);
  const [check] = await hears(page, 'check');
  assert.equal(check.of, 12);
  assert.equal(check.right, answers.filter(({ right }) => right).length);
  assert.equal(check.skills.reduce((/** @type {number} */ n, /** @type {any} */ s) => n + s.of, 0), 12);
  for (const answer of answers) {
    assert.deepEqual(Object.keys(answer).sort(), ['code', 'counted', 'expected', 'given', 'kind', 'lesson', 'mode', 'number', 'of', 'right', 'set', 'skill', 'step', 'v'], 'and nothing of the learner');
    assert.ok(answer.given && answer.expected && (answer.given === answer.expected ? answer.right : true));
  }
  await lessonSays('mode', { mode: 'explore' });
  await frame.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=250/15');

  await frame.locator('#speed').selectOption('30');
  await frame.locator('#play').click();
  await hears(page, 'played');
  await frame.evaluate(() => { const { session } = /** @type {any} */ (globalThis).__lesson; session.seek(session.live().end_s - 1); });
  await hears(page, 'flown');
  assert.deepEqual(complaints, []);
  await close();
});

test('bad messages are answered by a problem and change nothing; a flood is bounded, and its last scene is shown', async () => {
  const { page, frame, complaints, close } = await sites.openHost(sites.page(`?webgl=false&host=${sites.host}`));
  await hears(page, 'ready');
  const about = { lesson: 'holding-entry', v: 1 };
  for (const [message, problem] of /** @type {const} */ ([
    [{ ...about, v: 2, kind: 'scene', link: 'wind=1/1' }, 'version'], [{ ...about, kind: 'constructor' }, 'kind'], [{ ...about }, 'kind'],
    [{ ...about, kind: 'scene', link: 5 }, 'link'], [{ ...about, kind: 'scene', link: 'w'.repeat(2001) }, 'link'],
    [{ ...about, kind: 'mode', mode: '<img>' }, 'mode'], [{ ...about, kind: 'mode' }, 'mode']])) {
    const before = (await heardOf(page, 'problem')).length;
    await tell(page, message);
    assert.equal((await hears(page, 'problem', before + 1)).at(-1).problem, problem);
  }
  const count = (await page.evaluate(() => /** @type {any} */ (globalThis).heard.length));
  // Not this lesson's: other parts of the host.
  for (const message of ['text', null, 7, { kind: 'scene', v: 1, link: 'wind=1/1' }, { lesson: 'another', v: 1, kind: 'hello' }, [about]]) await tell(page, message);
  await tell(page, { ...about, kind: 'report', id: 'x' });
  await hears(page, 'report');
  assert.equal((await page.evaluate(() => /** @type {any} */ (globalThis).heard.length)), count + 1, 'only the report was answered');
  assert.equal(await frame.evaluate(() => globalThis.__lesson?.session.link()), '');

  await page.evaluate(() => {
    const { contentWindow } = /** @type {HTMLIFrameElement} */ (document.querySelector('iframe'));
    for (let knots = 1; knots <= 120; knots += 1) contentWindow?.postMessage({ lesson: 'holding-entry', v: 1, kind: 'scene', link: `wind=90/${knots}`, id: knots }, '*');
  });
  await frame.waitForFunction(() => globalThis.__lesson?.session.link() === 'wind=90/120');
  await page.waitForFunction(() => /** @type {any} */ (globalThis).heard.some((/** @type {any} */ m) => m.data.id === 120 && m.data.kind === 'scene'));
  assert.ok((await heardOf(page, 'problem')).some(({ problem }) => problem === 'too-many'));
  const shown = (await heardOf(page, 'scene')).filter(({ id }) => id !== undefined).length;
  assert.ok(shown < 120, `${shown} of 120 were handled`);
  assert.deepEqual(complaints, []);
  await close();
});

test('a stranger is not listened to and not told: another origin, another window, no host named', async () => {
  for (const named of ['&host=https://school.example', '']) {
    const { page, frame, complaints, close } = await sites.openHost(sites.page(`?webgl=false${named}`));
    await tell(page, { lesson: 'holding-entry', v: 1, kind: 'scene', link: 'wind=1/1' });
    await page.waitForFunction(() => /** @type {any} */ (globalThis).heard.some((/** @type {any} */ m) => m.data.type === 'lesson-height'));
    await drawnIn(frame);
    assert.equal(await frame.evaluate(() => globalThis.__lesson?.session.link()), '', named);
    assert.equal(await frame.locator('#host-said').isHidden(), true);
    assert.deepEqual(await page.evaluate(() => /** @type {any} */ (globalThis).heard.filter((/** @type {any} */ m) => m.data.lesson)), [], named);
    assert.deepEqual(complaints, [], named);
    await close();
  }
  // The right origin, but not the window around the page: a frame beside it.
  const { page, frame, close } = await sites.openHost(sites.page(`?webgl=false&host=${sites.host}`));
  await hears(page, 'ready');
  assert.deepEqual(['https://a.example', 'http://127.0.0.1:8080', 'https://a.example/', 'https://a.example/path', 'https://a.example?q', '*', 'null', '', null, 'javascript:1', 'data:,x', 'file:///x', 'https://u@a.example'].map(originOf),
    ['https://a.example', 'http://127.0.0.1:8080', 'https://a.example', ...Array(10).fill(null)]);
  await page.evaluate(() => new Promise((done) => {
    const beside = document.createElement('iframe');
    beside.title = 'beside';
    document.body.append(beside);
    const script = document.createElement('script');
    script.text = 'parent.frames[0].postMessage({ lesson: "holding-entry", v: 1, kind: "scene", link: "wind=1/1" }, "*");';
    beside.contentDocument?.body.append(script);
    done(null);
  }));
  await tell(page, { lesson: 'holding-entry', v: 1, kind: 'report', id: 'after' });
  await hears(page, 'report');
  assert.equal(await frame.evaluate(() => globalThis.__lesson?.session.link()), '');
  await close();
});

// --- the lines to paste ----------------------------------------------------------------------

lesson.test('Teach makes the lines for a frame, and a page with them shows that scene', { at: '?webgl=false&course=7#wind=310/22&mode=teach' }, async (page) => {
  await page.locator('#embed-title').fill('Holding "A" <b>');
  await page.locator('#embed-mode').selectOption('fly');
  await page.locator('#embed-lock input[value=wind]').check();
  await page.locator('#embed-hide input[value=exact]').check();
  await page.locator('#embed-host').fill('https://school.example/path');
  assert.match(await text(page, '#embed-problem'), /school\.example/);
  await page.locator('#embed-host').fill('https://school.example');
  assert.equal(await page.locator('#embed-problem').isVisible(), false);
  const lines = await page.locator('#embed-text').inputValue();
  // Read where the page's own policy does not hold.
  const host = await page.context().newPage();
  const made = await host.evaluate((html) => {
    const { body } = new DOMParser().parseFromString(html, 'text/html');
    return { count: body.childElementCount, name: body.firstElementChild?.localName,
      ...Object.fromEntries([...(body.firstElementChild?.attributes ?? [])].map(({ name, value }) => [name, value])) };
  }, lines);
  await host.close();
  assert.deepEqual(made, { count: 1, name: 'iframe', title: 'Holding "A" <b>', width: '100%', height: '760', style: 'border:0',
    allow: 'fullscreen; clipboard-write; web-share', loading: 'lazy',
    src: `${lesson.url}?embed=1&hide=exact&lock=wind&host=https://school.example#wind=310/22&mode=fly` });
  assert.equal(await page.locator('#embed-address').getAttribute('href'), /** @type {any} */ (made).src);
  await hands(page, { clipboard: true });
  await page.locator('#embed-copy').click();
  await page.waitForFunction(() => document.getElementById('embed-said')?.textContent === 'Copied');
  assert.deepEqual(await handed(page), [['clipboard', lines]]);
  await axeFindsNothing(page, 'Teach');
  await fitsAt(page, [320, 720, 1440]);
  assert.deepEqual(await tooSmall(page, '#teach-embed :is(a, button, input, select, textarea)', 24), []);
});
