// Pictures of the page for people to look at.
//   node tests/browser/screenshots.mjs [FOLDER]    all of them, into build/screenshots
//   node tests/browser/screenshots.mjs --readme    docs/page.png alone
import { mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { serve } from '../../web/serve.mjs';
import { SITE, VIEWS, drawn, enter, isReady, launch, unfold } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */

const project = fileURLToPath(new URL('../..', import.meta.url));

/** Moves the clock as the slider does. @param {Page} page @param {(events: Record<string, number>, end_s: number) => number} when */
async function seek(page, when) {
  const { events, end_s } = await page.evaluate(() => {
    const session = globalThis.__lesson?.session;
    if (!session) throw new Error('no lesson');
    /** @type {Record<string, number>} */
    const at = {};
    for (const event of session.report().events) at[event.name] ??= event.at_s;
    return { events: at, end_s: session.live().end_s };
  });
  await page.evaluate((t_s) => {
    const scrub = /** @type {HTMLInputElement} */ (document.getElementById('scrub'));
    scrub.step = 'any';
    scrub.value = String(t_s);
    scrub.dispatchEvent(new Event('input'));
  }, when(events, end_s));
  await drawn(page);
}

/** Half way round the turn inbound. @param {Page} page */
const midway = (page) => seek(page, (at) => (at['time-up'] + at['roll-out']) / 2);
/** @param {Page} page */
const finished = (page) => seek(page, (_, end_s) => end_s);

/** An own plan, and a field that cannot be. @param {Page} page */
async function mistaken(page) {
  await enter(page, 'heading', '112');
  await enter(page, 'wind-kt', '180');
  await page.locator('#problem-wind-kt').waitFor({ state: 'visible' });
  await drawn(page);
}

/** @param {Page} page */
async function unfolded(page) {
  await unfold(page);
  await page.locator('#more-plans').click();
  await drawn(page);
}

/** A scene in which every view has something to say. */
const TRADE = '#station=10to&fix=TARNE&efc=18:45&laps=2&saw=-0.3&took=1:10&variation=10E&view=';

/** A clearance and a report to read. @param {Page} page */
async function filled(page) {
  for (const [id, said] of [['clearance-said', 'Hold east of MARLO VOR on the 265 radial, left turns'],
    ['wind-said', 'METAR KABC 121953Z 24018G26KT 10SM CLR']]) {
    if (await page.locator(`#${id}`).isVisible()) await page.locator(`#${id}`).fill(said);
  }
  await drawn(page);
}

/** A handle held: its number stands out. @param {number} which */
const held = (which) => async (/** @type {Page} */ page) => {
  const at = await page.evaluate((n) => {
    const handle = globalThis.__lesson?.session.handle(n);
    const box = document.getElementById('picture')?.getBoundingClientRect();
    return handle && box ? { x: box.x + handle.x, y: box.y + handle.y } : null;
  }, which);
  if (!at) throw new Error('no handle');
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 3, at.y + 3);
  await drawn(page);
};

/** The pointer on the track. @param {Page} page */
async function pointed(page) {
  await seek(page, (at) => (at.level + at['time-up']) / 2);
  const at = await page.evaluate(() => {
    const session = globalThis.__lesson?.session;
    const box = document.getElementById('picture')?.getBoundingClientRect();
    if (!session || !box) throw new Error('no lesson');
    const { x_nm, y_nm } = session.live();
    const d = session.diagram();
    return { x: box.x + d.width / 2 + (x_nm - d.centre_x) * d.px_per_nm, y: box.y + d.height / 2 - (y_nm - d.centre_y) * d.px_per_nm };
  });
  await finished(page);
  await page.mouse.move(at.x, at.y);
  await drawn(page);
}

const SIZES = { 1440: [1440, 900], 1024: [1024, 768], 768: [768, 1024], 390: [390, 844], 320: [320, 700] };
const STRONG = '#wind=200/48';

/**
 * @typedef {object} Shot
 * @property {keyof typeof SIZES} size
 * @property {'light' | 'dark'} theme
 * @property {string} name What is seen.
 * @property {string} [at] Address.
 * @property {(page: Page) => Promise<void>} [ready]
 * @property {boolean} [whole] The whole page, not only what the window shows.
 * @property {import('playwright-core').BrowserContextOptions} [options]
 */

/** @type {Shot[]} */
const SHOTS = [
  { size: 1440, theme: 'light', name: 'start' },
  { size: 1440, theme: 'light', name: 'mid-flight', ready: midway },
  { size: 1440, theme: 'light', name: 'finished', ready: finished },
  { size: 1440, theme: 'light', name: 'strong-wind', at: STRONG, ready: midway },
  { size: 1440, theme: 'light', name: 'own-plan-and-error', ready: mistaken },
  { size: 1440, theme: 'light', name: 'wind-held', ready: held(1) },
  { size: 1440, theme: 'light', name: 'track-pointed-at', ready: pointed },
  { size: 1440, theme: 'light', name: 'right-turns-three-laps', at: '#inbound=90&turns=right&arrive=300&wind=30/25&laps=3', ready: finished },
  { size: 1440, theme: 'light', name: 'parallel-entry', at: '#arrive=30', ready: finished },
  { size: 1440, theme: 'light', name: 'direct-entry', at: '#arrive=230&laps=1', ready: finished },
  { size: 1440, theme: 'light', name: 'wind-too-strong', at: '#wind=320/120' },
  { size: 1440, theme: 'light', name: 'calm', at: '#wind=160/0', ready: midway },
  { size: 1440, theme: 'light', name: 'whole-unfolded', ready: unfolded, whole: true },
  { size: 1440, theme: 'light', name: 'as-svg', at: '?webgl=false', ready: midway },
  { size: 1440, theme: 'dark', name: 'start' },
  { size: 1440, theme: 'dark', name: 'mid-flight', ready: midway },
  { size: 1440, theme: 'dark', name: 'strong-wind', at: STRONG, ready: finished },
  { size: 1440, theme: 'dark', name: 'forced-colours', ready: midway, options: { forcedColors: 'active' } },
  { size: 1024, theme: 'light', name: 'start' },
  { size: 1024, theme: 'dark', name: 'mid-flight', ready: midway },
  { size: 1024, theme: 'light', name: 'strong-wind', at: STRONG, ready: finished },
  { size: 768, theme: 'light', name: 'mid-flight', ready: midway },
  { size: 768, theme: 'dark', name: 'own-plan-and-error', ready: mistaken, whole: true },
  { size: 390, theme: 'light', name: 'start' },
  { size: 390, theme: 'light', name: 'finished', ready: finished },
  { size: 390, theme: 'dark', name: 'mid-flight', ready: midway },
  { size: 390, theme: 'dark', name: 'strong-wind', at: STRONG, ready: midway },
  { size: 390, theme: 'light', name: 'whole-own-plan-and-error', ready: mistaken, whole: true },
  { size: 320, theme: 'light', name: 'start' },
  { size: 320, theme: 'dark', name: 'whole-unfolded', ready: unfolded, whole: true },
  ...VIEWS.slice(1).flatMap((view) => /** @type {Shot[]} */ ([
    { size: 1440, theme: 'light', name: `view-${view}`, at: TRADE + view, ready: filled, whole: true },
    { size: 768, theme: 'dark', name: `view-${view}`, at: TRADE + view, ready: filled, whole: true },
    { size: 320, theme: 'light', name: `view-${view}`, at: TRADE + view, ready: filled, whole: true },
  ])),
];

const README = SHOTS.find((shot) => shot.name === 'mid-flight');

/**
 * @param {import('playwright-core').Browser} browser @param {string} url
 * @param {Shot} shot @param {string} path
 */
async function take(browser, url, shot, path) {
  const [width, height] = SIZES[shot.size];
  const touch = width < 500 ? { hasTouch: true, isMobile: true } : {};
  const context = await browser.newContext({
    viewport: { width, height }, colorScheme: shot.theme, ...touch, ...shot.options });
  const page = await context.newPage();
  await page.goto(url + (shot.at ?? ''));
  await isReady(page, /webgl=false/.test(shot.at ?? '') ? 'core' : 'view');
  await page.evaluate(() => document.fonts.ready);
  await shot.ready?.(page);
  await page.screenshot({ path, fullPage: shot.whole ?? false });
  await context.close();
}

const readme = process.argv.includes('--readme');
const folder = resolve(process.argv.slice(2).find((arg) => !arg.startsWith('--')) ?? join(project, 'build/screenshots'));
const site = await serve(SITE);
const browser = await launch();
try {
  if (readme) {
    if (!README) throw new Error('no mid-flight shot');
    await take(browser, site.url, README, join(project, 'docs/page.png'));
    console.log('docs/page.png');
  } else {
    await mkdir(folder, { recursive: true });
    for (const shot of SHOTS) {
      const file = `${String(shot.size).padStart(4, '0')}-${shot.theme}-${shot.name}.png`;
      await take(browser, site.url, shot, join(folder, file));
      console.log(file);
    }
  }
} finally {
  await browser.close();
  await site.close();
}
