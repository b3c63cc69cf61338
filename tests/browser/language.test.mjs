// The page in a made-up language (pseudo.mjs): every mode and view is walked, and text that
// has no accents comes from no catalogue. Longer words are neither cut off nor do they overlap.
// What stays as it is in every language is listed here and in docs/language.md.
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { catalogue } from '../../web/catalogue.mjs';
import { cutOff } from './access.mjs';
import { SITE, VIEWS, drawn, enter, lessons, openView, text, unfold } from './lesson.mjs';
import { FIX_NAMES, PSEUDO } from './pseudo.mjs';

const browser = await lessons({ folder: join(SITE, '..', PSEUDO, 'site') });

/** @typedef {import('./lesson.mjs').Page} Page */

const WIDTHS = [320, 768, 1280];

/** Places whose text is data: question sets, the rows of the check tables, what is said on the radio, an address. */
const AS_IT_IS = '#practice-set, #practice-set-about, #teach-set, #checks, .subjects a, .said, .said-also, #embed-address';

/** A unit, a key of the link, the points of the compass as a clearance says them, names of fixes. */
const NOT_WORDS = new Set(['min', 'inbound',
  ...['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'].flatMap((point) => [point, point.toUpperCase()]),
  ...FIX_NAMES.flatMap((key) => catalogue()[key].split(' '))]);

/**
 * Words of the page that the made-up language does not have: texts and what names, explains or
 * labels an element.
 * @param {Page} page @returns {Promise<string[]>}
 */
const foreign = (page) => page.evaluate(([asItIs, notWords]) => {
  const known = new Set(notWords);
  /** @type {string[]} */
  const found = [];
  /** @param {string} said @param {Element} el @param {string} what */
  const look = (said, el, what) => {
    if (asItIs && el.closest(String(asItIs))) return;
    const words = (said.match(/[\p{L}]{2,}/gu) ?? []).filter((word) => /[aeiouy]/i.test(word) && !known.has(word));
    if (words.length) found.push(`${el.tagName.toLowerCase()}${el.id ? `#${el.id}` : ''} in #${el.closest('[id]')?.id}, ${what}: “${said.trim().slice(0, 90)}”`);
  };
  const walker = document.createTreeWalker(document.documentElement, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const el = node.parentElement;
    if (el && !el.closest('script, style, textarea, noscript')) look(node.textContent ?? '', el, 'text');
  }
  for (const el of document.querySelectorAll('*')) {
    for (const name of ['aria-label', 'aria-description', 'aria-roledescription', 'aria-valuetext', 'placeholder', 'title', 'alt', 'data-label']) {
      const said = el.getAttribute(name);
      if (said) look(said, el, name);
    }
    if (el instanceof HTMLMetaElement && el.name === 'description') look(el.content, el, 'description');
  }
  return [...new Set(found)];
}, [AS_IT_IS, [...NOT_WORDS]]);

/**
 * A walk: what is not made up, or does not fit, at each place where `look` is called.
 * @param {string} name @param {import('./lesson.mjs').Wanted & import('./lesson.mjs').ContextOptions} wanted
 * @param {(page: Page, look: (where: string) => Promise<void>) => Promise<void>} steps
 */
const walk = (name, wanted, steps) => browser.test(name, { reducedMotion: 'reduce', ...wanted }, async (page) => {
  /** @type {string[]} */
  const found = [];
  /** @param {string} where */
  const look = async (where) => {
    await drawn(page);
    found.push(...(await foreign(page)).map((fault) => `${where}: ${fault}`));
    for (const width of WIDTHS) {
      await page.setViewportSize({ width, height: 860 });
      await drawn(page);
      found.push(...(await cutOff(page)).map((fault) => `${where}, ${width} px wide: ${fault}`));
    }
  };
  await steps(page, look);
  assert.deepEqual([...new Set(found)], []);
});

walk('explore, every view', { at: '?webgl=false#laps=2&saw=0.3&took=0:50&station=10to&roll=5&later=300/30&fix=XX&efc=18:45' }, async (page, look) => {
  assert.equal(await page.locator('html').getAttribute('lang'), PSEUDO);
  await unfold(page);
  for (const view of VIEWS) {
    await openView(page, view);
    await look(view);
  }
  await openView(page, 'clearance');
  await page.locator('#clearance-said').fill('HOLD EAST OF THE BCD VOR ON THE 270 RADIAL, RIGHT TURNS, EFC 1845');
  await page.locator('#clearance-steps li').first().waitFor();
  await look('a clearance that contradicts itself');
  await openView(page, 'wind');
  await page.locator('#wind-said').fill('METAR KBCD 261853Z 31022G30KT 10SM 15/08 A2992');
  await page.locator('#wind-steps li').first().waitFor();
  await look('a wind report');
  await openView(page, 'plan');
  await enter(page, 'inbound', '400');
  await page.locator('#problem-inbound').waitFor({ state: 'visible' });
  await look('a problem');
});

walk('the lesson’s first steps', { at: '?webgl=false#mode=lesson' }, async (page, look) => {
  for (const step of ['join', 'turn']) {
    await page.evaluate((id) => { location.hash = `mode=lesson&step=${id}`; }, step);
    await page.locator('#lesson-show').waitFor();
    await look(`${step}, asked`);
    await page.locator('#lesson-show').click();
    await page.locator('.lesson-observe li').first().waitFor();
    await look(`${step}, flown`);
  }
});

walk('practice, a question with its answer, and Teach', { at: '?webgl=false#mode=practice' }, async (page, look) => {
  await page.locator('#practice-go').waitFor();
  await unfold(page);
  await look('before');
  await page.evaluate(() => /** @type {HTMLInputElement} */ (document.getElementById('practice-code')).value = globalThis.__lesson?.core.tutor().newCode(5) ?? '');
  await page.locator('#practice-check').click();
  await page.locator('#practice-form').waitFor();
  await look('asked');
  const choice = page.locator('#practice-form input[type=radio]');
  if (await page.locator('#practice-answer').count()) await page.locator('#practice-answer').fill('94');
  if (await choice.count()) await choice.first().check();
  await page.locator('#practice-form button[type=submit]').click();
  await page.locator('#practice-next').waitFor();
  await look('answered');
  await page.locator('#to-teach').click();
  await page.locator('#teach-form').waitFor();
  await look('Teach');
});

walk('all winds', { at: '?webgl=false#mode=winds&cloud=1' }, async (page, look) => {
  await unfold(page);
  await page.locator('#winds-cloud-shares li').first().waitFor();
  for (const [map, plan] of [['miss', 'best'], ['inbound', 'own'], ['laps', 'drift-once'], ['intercept', 'drift-once'], ['multiple', '']]) {
    await page.locator('#winds-mapped').selectOption(map);
    if (plan) await page.locator('#winds-plan').selectOption(plan);
    await page.waitForFunction((want) => document.getElementById('winds-map')?.dataset.about?.startsWith(want), map);
    await look(`a map: ${map}`);
  }
});

walk('flying by hand, and the card', { at: '?webgl=false#mode=fly' }, async (page, look) => {
  await unfold(page);
  await page.locator('#fly-start').click();
  await page.locator('#fly-end').waitFor();
  await page.evaluate(() => {
    const session = globalThis.__lesson?.session;
    session?.speed(8);
    while (session && session.live().t_s < 90) session.tick(0.1);
  });
  await look('in flight');
  await page.locator('#fly-end').click();
  await page.locator('#fly-again').waitFor();
  await look('debriefed');
  await page.locator('#to-card').click();
  await page.locator('#card-sheet table').first().waitFor();
  await look('the card');
});

for (const [name, at] of [['lesson to read', 'lesson.html'], ['list of sources', 'sources.html'], ['maps by speed and altitude', 'study.html']]) {
  walk(`the ${name}`, { at, ready: null }, async (page, look) => {
    await unfold(page);
    await page.waitForFunction(() => !document.querySelector('[aria-busy]'));
    await look(name);
  });
}
