// The address says the scene: it opens it, follows it, and brings it back.
import assert from 'node:assert/strict';
import { GOLDEN } from './links.mjs';
import { addressSettled, ask, coreInNode, drawn, enter, fieldSays, isReady, lessons, report, text, viewIsOpen, wholeCore } from './lesson.mjs';

const lesson = await lessons();
const core = await coreInNode();

/** @typedef {import('./lesson.mjs').Page} Page */

/** The session, the words and the form say what the core in Node says of the link. */
/** @param {Page} page @param {string} given @param {string} written */
async function opened(page, given, written) {
  assert.equal(await ask(page, 'link'), written, given);
  await wholeCore(page);
  // The area is worked out only for who looks at it.
  const truth = { ...core.evaluate(given), area: null };
  assert.deepEqual(await report(page), truth, given);
  await page.waitForFunction((words) => document.getElementById('summary')?.textContent === words, truth.summary);
  assert.ok((await text(page, '#happens')).includes(truth.headline), given);
  await fieldSays(page, 'inbound', truth.fields.inbound.padStart(3, '0'));
}

lesson.test('each link opens its scene from the hash of a page that stands', { at: '?webgl=false' }, async (page) => {
  for (const [given, written] of GOLDEN) {
    await page.evaluate((to) => { location.hash = to; }, given);
    await page.waitForFunction((want) => globalThis.__lesson?.session.link() === want, written);
    await opened(page, given, written);
    await page.waitForFunction((want) => location.hash === want, written && `#${written}`);
  }
});

lesson.test('links open their scenes from the query of a new page', { at: '?webgl=false' }, async (page) => {
  for (const [given, written] of GOLDEN.filter((_, i) => i % 4 === 1)) {
    await page.goto(`${lesson.url}?${given}&webgl=false`);
    await isReady(page, 'core');
    await opened(page, given, written);
  }
});

lesson.test('the hash wins over the query, key by key',
  { at: '?inbound=120&wind=200/30&webgl=false#wind=90/10' }, async (page) => {
    await opened(page, 'inbound=120&wind=90/10', 'inbound=120&wind=90/10');
  });

lesson.test('a change rewrites the address in place, and a reload keeps the scene',
  { at: '?wind=200/30&course=7&webgl=false#turns=right' }, async (page) => {
    const length = await page.evaluate(() => history.length);
    await enter(page, 'inbound', '251');
    await addressSettled(page);
    const link = 'inbound=251&turns=right&wind=200/30';
    assert.equal(await ask(page, 'link'), link);
    const address = new URL(page.url());
    assert.equal(address.hash, `#${link}`);
    assert.equal(address.search, '?course=7&webgl=false', 'what is not ours stays, what the hash says goes');
    assert.equal(await page.evaluate(() => history.length), length, 'nothing to go back through');
    await page.reload();
    await isReady(page, 'core');
    assert.equal(await ask(page, 'link'), link);
    await fieldSays(page, 'inbound', '251');
    assert.equal(await page.locator('#undo').isDisabled(), true, 'a scene opened anew has nothing to undo');
  });

lesson.test('going back to another hash opens that scene', { at: '?webgl=false#inbound=100' }, async (page) => {
  await page.evaluate(() => { location.hash = 'inbound=200'; });
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'inbound=200');
  await page.goBack();
  await page.waitForFunction(() => globalThis.__lesson?.session.link() === 'inbound=100');
  await fieldSays(page, 'inbound', '100');
});

lesson.test('the default scene has a bare address again after a reset', { at: '?webgl=false#inbound=100&laps=2' }, async (page) => {
  await page.locator('#reset').click();
  await page.waitForFunction(() => location.hash === '');
  assert.ok(!page.url().includes('#'));
  await fieldSays(page, 'inbound', '238');
  await page.locator('#undo').click();
  await page.waitForFunction(() => location.hash === '#inbound=100&laps=2');
});

lesson.test('the link is copied as the page that opens it',
  { at: '?webgl=false#inbound=100', permissions: ['clipboard-read', 'clipboard-write'] }, async (page) => {
    await page.locator('#copy').click();
    await page.waitForFunction(() => document.getElementById('copy')?.textContent === 'Copied');
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    assert.equal(copied, page.url());
    await page.waitForFunction(() => document.getElementById('live')?.textContent === 'Copied');
  });

lesson.test('where the clipboard is forbidden the link stands to be copied by hand',
  { at: '?webgl=false#inbound=100', before: (page) => page.addInitScript(() => {
    document.execCommand = () => false;
    Object.defineProperty(navigator, 'clipboard', { value: undefined });
  }) }, async (page) => {
    await page.locator('#copy').click();
    const field = page.locator('#copy-text');
    await field.waitFor({ state: 'visible' });
    assert.equal(await field.inputValue(), page.url());
    assert.equal(await field.evaluate((input) => input === document.activeElement), true);
  });

/**
 * Keeps a part of the page until it is let go; for `before`.
 * @param {string} part Beginning of its file's name.
 */
function kept(part) {
  /** @type {() => void} */
  let letGo = () => {};
  const gone = new Promise((done) => { letGo = () => done(null); });
  return {
    letGo,
    /** @param {Page} page */
    before: (page) => page.route(new RegExp(`/${part}-\\w+\\.js$`), async (route) => {
      await gone;
      await route.continue();
    }),
  };
}

/** What the address says behind the #, once it says it. @param {Page} page @param {string} hash */
const addressSays = (page, hash) => page.waitForFunction((want) => location.hash === want, hash)
  .catch(() => assert.equal(new URL(page.url()).hash, hash));

const limits = kept('panel-limits');
lesson.test('a change while a link’s view is on its way does not write over the link', { at: '?webgl=false', before: limits.before }, async (page) => {
  await page.evaluate(() => { location.hash = 'inbound=100&wind=200/15&view=limits'; });
  await page.locator('#tab-limits[aria-busy]').waitFor();
  await enter(page, 'wind-kt', '33');
  await drawn(page);
  limits.letGo();
  await viewIsOpen(page, 'limits');
  await addressSettled(page);
  assert.equal(await ask(page, 'link'), 'inbound=100&wind=200/15');
});

const winds = kept('mode-winds');
lesson.test('a change while a mode is on its way leaves the mode in the address', { at: '?webgl=false', before: winds.before }, async (page) => {
  await page.locator('#to-winds').click();
  await page.locator('#to-winds[aria-busy]').waitFor();
  await enter(page, 'wind-kt', '22');
  await drawn(page);
  winds.letGo();
  await page.locator('#mode-winds').waitFor();
  await addressSays(page, '#wind=160/22&mode=winds');
  await page.locator('#to-explore').click();
  await page.locator('#mode-winds').waitFor({ state: 'hidden' });
  await addressSays(page, '#wind=160/22');
});

const card = kept('mode-card');
lesson.test('so does one while the mode of a new page is on its way', { at: '?webgl=false#mode=card', ready: null, before: card.before }, async (page) => {
  await page.locator('#to-card[aria-busy]').waitFor();
  await enter(page, 'wind-kt', '22');
  await drawn(page);
  card.letGo();
  await page.locator('#mode-card').waitFor();
  await addressSays(page, '#wind=160/22&mode=card');
});
