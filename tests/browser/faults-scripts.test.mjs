// A script of the page that cannot be read, stops at once, or fails while it works: it is said by
// name, and every other part goes on.
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { isSaid, works } from './faults.mjs';
import { SITE, VIEWS, ask, isReady, lessons, openView, text } from './lesson.mjs';

const lesson = await lessons();

/** @typedef {import('./lesson.mjs').Page} Page */

const MODES = ['lesson', 'practice', 'fly', 'winds', 'card', 'teach'];
const [, ...LATER_VIEWS] = VIEWS;

/** How a script may fail before it gives anything. */
const UNREADABLE = { 'that cannot be read': 'export const = 1;', 'that stops at once': 'throw new Error("it stopped");' };

/** Its part fails whenever it is used. @param {string} name Of what the script gives. */
const failing = (name) => `const fail = () => { throw new Error('it fails'); };
export const ${name} = () => ({ open: fail, close: fail, scenario: fail, clock: fail, address: fail });`;

/** Fails later, as what waits for something does. @param {string} name */
const failingLater = (name) => `export const ${name} = () => ({ open: async () => { throw new Error('it fails'); }, close() {} });`;

/** @param {Page} page @param {RegExp} file @param {string} body */
const serveAs = (page, file, body) => page.route(file, (route) => route.fulfill({ contentType: 'text/javascript', body }));

const LATE = new RegExp(`/(panel|mode)-(${[...LATER_VIEWS, ...MODES].join('|')})-\\w+\\.js$`);

lesson.test('each view and each mode is a script of its own', { at: '?webgl=false' }, async () => {
  const found = readdirSync(SITE).filter((name) => LATE.test(`/${name}`));
  assert.equal(found.length, LATER_VIEWS.length + MODES.length, found.join(' '));
});

for (const [how, body] of Object.entries(UNREADABLE)) {
  lesson.test(`a script of a view or mode ${how}: each is said, none is opened, the page works`,
    { at: '?webgl=false', mayComplain: true, before: (page) => serveAs(page, LATE, body) }, async (page) => {
      for (const name of LATER_VIEWS) {
        await page.locator(`#tab-${name}`).click();
        await isSaid(page, new RegExp(`^“${await text(page, `#tab-${name}`)}” could not be loaded`));
      }
      for (const name of MODES) {
        await page.locator(`#to-${name}`).click();
        await isSaid(page, new RegExp(`^“${await text(page, `#to-${name}`)}” could not be loaded`));
        await page.waitForFunction(() => !location.hash.includes('mode='));
      }
      assert.equal(await page.locator('#view-plan').isVisible(), true);
      await works(page, 31);
    });
}

lesson.test('views that fail while they work: each is said once, and the clock, the words and the other views go on', {
  at: '?webgl=false', mayComplain: true,
  before: async (page) => {
    for (const name of LATER_VIEWS.filter((it) => it !== 'laps')) {
      await serveAs(page, new RegExp(`/panel-${name}-\\w+\\.js$`), `${failing(`${name}Panel`)}
export const bearingWords = () => '', courseWords = () => '';`);
    }
  },
}, async (page, complaints) => {
  for (const name of LATER_VIEWS.filter((it) => it !== 'laps')) {
    complaints.length = 0;
    await openView(page, name);
    await isSaid(page, new RegExp(`^“${await text(page, `#tab-${name}`)}” met an error`));
    await page.locator('#play').click();
    const { t_s } = await ask(page, 'live');
    await page.waitForFunction((was) => (globalThis.__lesson?.session.live().t_s ?? 0) > was + 0.2, t_s);
    await page.locator('#play').click();
    assert.equal(complaints.filter((line) => /it fails/.test(line)).length, 1, 'said once, not with every frame');
    await openView(page, 'laps');
    assert.ok(await page.locator('#view-laps td').count());
    assert.equal(await page.locator('#notice').isVisible(), false, 'what is open is whole');
  }
  await works(page, 31);
});

lesson.test('a view that fails when the page opens with it is not taken for the page', {
  at: '?webgl=false#view=wind', mayComplain: true, before: (page) => serveAs(page, /\/panel-wind-\w+\.js$/, failing('windPanel')),
}, async (page) => {
  await isSaid(page, /^“Wind” met an error/);
  await works(page, 31);
});

for (const [when, script] of Object.entries({ 'at once': failing, later: failingLater })) {
  lesson.test(`modes that fail ${when} while they work can be left for others, and the page works`, {
    at: '?webgl=false#mode=lesson', mayComplain: true,
    before: async (page) => {
      for (const name of MODES.filter((it) => it !== 'card')) await serveAs(page, new RegExp(`/mode-${name}-\\w+\\.js$`), script(`${name}Mode`));
    },
  }, async (page) => {
    for (const name of MODES.filter((it) => it !== 'card')) {
      await page.locator(`#to-${name}`).click();
      await isSaid(page, new RegExp(`^“${await text(page, `#to-${name}`)}” met an error`));
      await page.locator('#to-card').click();
      await page.locator('#mode-card').waitFor();
      assert.equal(await page.locator('#notice').isVisible(), false, 'what is open is whole');
    }
    await page.locator('#to-explore').click();
    await page.locator('#view-plan').waitFor();
    await works(page, 31);
  });
}

lesson.test('without what saves pictures, or draws the code on paper, only that is missing', {
  at: '?webgl=false', mayComplain: true, before: (page) => serveAs(page, /\/(take-away-\w+\.js|qrcode\.mjs)$/, 'throw new Error("it stopped");'),
}, async (page) => {
  await page.locator('#save-svg').evaluate((button) => {
    for (let el = button.parentElement; el; el = el.parentElement) if (el instanceof HTMLDetailsElement) el.open = true;
  });
  await page.locator('#save-svg').click();
  await isSaid(page, /could not be loaded/);
  await works(page, 31);
});

lesson.test('without the script that talks with a course, or with the page around, the page works and says so',
  { at: '?webgl=false', mayComplain: true, before: (page) => serveAs(page, /\/(course-part|host)-\w+\.js$/, 'throw new Error("it stopped");') },
  async (page) => {
    for (const [query, said] of /** @type {const} */ ([['lms=1', /your course/], ['host=https://school.example', /around this one/]])) {
      await page.goto(`${lesson.url}?webgl=false&${query}`);
      await isReady(page, 'core');
      await isSaid(page, said);
      await works(page, 31);
    }
  });

lesson.test('without the script of the worker the maps are made in the page; without that of the maps the mode says so',
  { at: '?webgl=false', mayComplain: true, before: (page) => serveAs(page, /\/study-worker\.js$/, 'throw new Error("it stopped");') }, async (page) => {
    await page.locator('#to-winds').click();
    await page.waitForFunction(() => document.getElementById('winds-map')?.dataset.whole === 'true');
    await serveAs(page, /\/study(-work-\w+\.js|\.mjs)$/, 'export const = 1;');
    await page.goto(`${lesson.url}?webgl=false&again=1#mode=winds`);
    await isReady(page, 'core');
    await page.locator('#winds-failed').waitFor({ state: 'visible' });
    await page.locator('#to-explore').click();
    await works(page, 31);
  });
