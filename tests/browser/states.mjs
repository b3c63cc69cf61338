// Every screen of the page and the states that it has, as a table: what is true of all of them
// is tested by going through it. Each walk is one page; each state follows from the one before.
import { drawn, enter, openView, unfold } from './lesson.mjs';

/** @typedef {import('./lesson.mjs').Page} Page */
/**
 * @typedef {object} State
 * @property {string} name File of its tree in trees/.
 * @property {(page: Page) => Promise<unknown>} [come] How it is come to; the first is where the page opens.
 */
/**
 * @typedef {object} Walk
 * @property {string} name
 * @property {string} at Query and hash of the address.
 * @property {string | null} [ready]
 * @property {boolean} [mayComplain]
 * @property {(page: Page) => Promise<unknown>} [before]
 * @property {State[]} states
 */

/** A scene in which every view has something to say. */
const FULL = 'wind=222/44&laps=3&station=10to&aid=vor&fix=TARNE&efc=18:45&saw=-0.3&took=1:10&later=250/30&roll=5';

/** The day that results bear. @param {Page} page */
const onADay = (page) => page.clock.setFixedTime('2026-03-02T09:00:00Z');

/** @param {string} hash */
const goTo = (hash) => /** @param {Page} page */ async (page) => {
  await page.evaluate((to) => { location.hash = to; }, hash);
  const mode = new URLSearchParams(hash).get('mode') ?? 'explore';
  await page.waitForFunction((want) => (document.body.dataset.mode ?? 'explore') === want, mode);
  await drawn(page);
};

/** @param {string} view @param {(page: Page) => Promise<unknown>} [then] */
const inView = (view, then) => /** @param {Page} page */ async (page) => {
  await openView(page, view);
  await then?.(page);
  await unfold(page);
  await drawn(page);
};

/** Presses, and waits for what comes of it. @param {string} press @param {string} seen */
const until = (press, seen) => /** @param {Page} page */ async (page) => {
  await page.locator(press).click();
  await page.locator(seen).waitFor({ state: 'visible' });
  await drawn(page);
};

/** Fields that are wrong, and what is said of them. @param {Page} page */
async function mistaken(page) {
  await unfold(page);
  await enter(page, 'inbound', '400');
  await enter(page, 'bank', '99');
  await page.locator('#problem-bank').waitFor({ state: 'visible' });
}

/** A code of its own, so that the questions are always the same. @param {Page} page */
async function withCode(page) {
  const code = await page.evaluate(() => globalThis.__lesson?.core.tutor().newCode(5) ?? '');
  await page.locator('#practice-code').fill(code);
}

/** An answer that can be read, whatever it is worth. @param {Page} page */
export async function answerAny(page) {
  const kind = await page.evaluate(() => {
    const item = globalThis.__lesson?.core.tutor().state().item;
    return item?.steps[item.asked ?? 0].kind;
  });
  if (kind === 'choice') await page.locator('#practice-form input[type=radio]').first().check();
  else await page.locator('#practice-answer').fill(kind === 'seconds' ? '1:10' : kind === 'correction' || kind === 'hold' ? '7' : '94');
  if (kind === 'correction' || kind === 'hold') await page.locator('input[name=practice-side][value=left]').check();
  await until('.lesson-commit', '#practice-verdict')(page);
}

/** The flight by hand stands still at this time. @param {number} at_s */
const flownTo = (at_s) => /** @param {Page} page */ async (page) => {
  await page.evaluate((to) => {
    const session = globalThis.__lesson?.session;
    session?.play();
    while (session && session.live().t_s < to - 1e-6) session.tick(Math.min(0.1, to - session.live().t_s));
    session?.pause();
    document.querySelector('input[name="fly-speed"]:checked')?.dispatchEvent(new Event('change', { bubbles: true }));
  }, at_s);
  await drawn(page);
};

/** The finest map and the whole cloud are there. @param {Page} page */
async function mapped(page) {
  await unfold(page);
  await page.waitForFunction(() => document.getElementById('winds-map')?.dataset.whole === 'true');
  await page.waitForFunction(() => document.getElementById('winds-point')?.hasAttribute('aria-valuetext'));
  await page.locator('#winds-cloud-shares li').first().waitFor();
  await page.locator('#winds-card td').first().waitFor();
  await drawn(page);
}

/** @type {Walk[]} */
export const WALKS = [
  {
    name: 'explore',
    at: '?webgl=false',
    states: [
      { name: 'explore' },
      { name: 'explore-mistaken', come: mistaken },
      { name: 'explore-no-flight', come: goTo('wind=320/120&arrive=230') },
      { name: 'explore-update', come: (page) => page.evaluate(() => document.getElementById('update')?.removeAttribute('hidden')) },
      { name: 'explore-copy-by-hand',
        come: async (page) => {
          await page.evaluate(() => {
            document.getElementById('update')?.setAttribute('hidden', '');
            Object.defineProperty(navigator, 'clipboard', { value: undefined });
            document.execCommand = () => false;
          });
          await until('#copy', '#copy-fallback')(page);
        } },
    ],
  },
  {
    name: 'views',
    at: `?webgl=false#${FULL}`,
    states: [
      { name: 'view-plan', come: inView('plan') },
      { name: 'view-clearance',
        come: inView('clearance', (page) => page.locator('#clearance-said').fill('hold west of TARNE on the 265 radial, left turns')) },
      { name: 'view-entry', come: inView('entry') },
      { name: 'view-wind', come: inView('wind', (page) => page.locator('#wind-said').fill('24018G28KT')) },
      { name: 'view-laps', come: inView('laps') },
      { name: 'view-miss', come: inView('miss') },
      { name: 'view-displays', come: inView('displays') },
      { name: 'view-limits', come: inView('limits') },
    ],
  },
  {
    name: 'lesson',
    at: '?webgl=false#mode=lesson',
    states: [
      { name: 'lesson-asked', come: (page) => page.locator('.lesson-commit').waitFor({ state: 'visible' }) },
      { name: 'lesson-unanswered', come: until('.lesson-commit', '#lesson-form .problem') },
      { name: 'lesson-answered',
        come: async (page) => {
          await page.locator('#lesson-form input').first().check();
          await until('.lesson-commit', '#lesson-said')(page);
          await page.evaluate(() => globalThis.__lesson?.session.speed(30));
          await page.waitForFunction(() => !globalThis.__lesson?.session.live().playing);
        } },
    ],
  },
  {
    name: 'practice',
    at: '?webgl=false#mode=practice',
    before: onADay,
    states: [
      { name: 'practice-start',
        come: async (page) => {
          await withCode(page);
          await unfold(page);
        } },
      { name: 'practice-worked',
        come: async (page) => {
          for (const skill of ['entry', 'wind', 'timing', 'clearance']) await page.locator(`input[value=${skill}][name=practice-skill]`).uncheck();
          await until('#practice-go', '#practice-item')(page);
        } },
      { name: 'practice-hinted',
        come: async (page) => {
          await page.locator('#practice-next').click();
          await until('#practice-hint', '.practice-hint')(page);
        } },
      { name: 'practice-answered', come: answerAny },
    ],
  },
  {
    name: 'check',
    at: '?webgl=false#mode=practice',
    before: onADay,
    states: [
      { name: 'check-asked',
        come: async (page) => {
          await withCode(page);
          await until('#practice-check', '#practice-item')(page);
        } },
      { name: 'check-answered', come: answerAny },
      { name: 'check-result',
        come: async (page) => {
          for (let n = 1; n < 12; n += 1) {
            await page.locator('#practice-next').click();
            await page.locator('.lesson-commit').waitFor({ state: 'visible' });
            await answerAny(page);
          }
          await until('#practice-next', '#practice-result')(page);
          await unfold(page);
        } },
      { name: 'check-clear', come: until('#practice-clear', '#practice-sure') },
    ],
  },
  {
    name: 'fly',
    at: '?webgl=false#mode=fly',
    states: [
      { name: 'fly-before' },
      { name: 'fly-flying',
        come: async (page) => {
          await page.locator('label:has(#fly-needles)').click();
          await until('#fly-start', '#fly-cockpit')(page);
          await page.locator('#fly-pause').click();
          await flownTo(100)(page);
        } },
      { name: 'fly-debrief', come: until('#fly-end', '#fly-debrief') },
    ],
  },
  {
    name: 'winds',
    at: '?webgl=false#mode=winds&cloud=1',
    states: [
      { name: 'winds', come: mapped },
      { name: 'winds-best',
        come: async (page) => {
          await page.locator('#winds-plan').selectOption('best');
          await page.locator('.winds-rules').waitFor();
          await mapped(page);
        } },
    ],
  },
  {
    name: 'study',
    at: 'study.html',
    ready: null,
    states: [
      { name: 'study', come: (page) => page.waitForFunction(() => document.documentElement.dataset.study === 'whole') },
    ],
  },
  {
    name: 'card',
    at: '?webgl=false#mode=card',
    states: [{ name: 'card' }],
  },
  {
    name: 'teach',
    at: '?webgl=false#mode=teach',
    states: [
      { name: 'teach' },
      { name: 'teach-mistaken',
        come: async (page) => {
          await page.locator('#teach-mark').fill('0');
          await until('#teach-make', '#teach-problem')(page);
        } },
      { name: 'teach-made',
        come: async (page) => {
          await page.locator('#teach-mark').fill('80');
          await page.locator('#teach-make').click();
          await page.waitForFunction(() => document.getElementById('teach-said')?.textContent);
        } },
    ],
  },
  {
    name: 'course',
    at: '?webgl=false&lms=1&mode=practice',
    before: onADay,
    states: [{ name: 'course-not-found', come: withCode }],
  },
  {
    name: 'no core',
    at: '?webgl=false',
    ready: 'failed',
    mayComplain: true,
    before: (page) => page.route('**/core.wasm', (route) => route.abort()),
    states: [{ name: 'failed' }],
  },
];
