// Addresses that nobody would write, and old ones: the page stands, says what it could not take, and
// flies a scene that the core knows; the links of the first version give their numbers.
import assert from 'node:assert/strict';
import { saysNoNonsense, works } from './faults.mjs';
import { rowsOf } from './links.mjs';
import { PATIENCE_MS, ask, coreInNode, isReady, lessons, report } from './lesson.mjs';

const lesson = await lessons();
const core = await coreInNode();

/** @typedef {[link: string, written: string, entry: string, ...numbers: number[]]} Golden */

/** Of the same file as the native test. @type {Golden[]} */
const FIRST_VERSION = /** @type {any[]} */ (rowsOf('links.inc'));

lesson.test('links of the first version give the numbers that it gave', { at: '?webgl=false' }, async (page) => {
  assert.ok(FIRST_VERSION.length >= 30, `${FIRST_VERSION.length} links`);
  // In one go: a round trip each would cost more than the links.
  const wanted = FIRST_VERSION.map(([given, written]) => ({ given, written, words: core.evaluate(given).summary }));
  const answers = await page.evaluate(async ([links, patience_ms]) => {
    /** @type {any[]} */
    const all = [];
    for (const { given, written, words } of links) {
      location.hash = given;
      const until = Date.now() + patience_ms;
      const { session } = globalThis.__lesson ?? {};
      const is_there = () => session?.link() === written && location.hash === `#${written}` && document.getElementById('summary')?.textContent === words;
      while (!is_there() && Date.now() < until) await new Promise((done) => { setTimeout(done, 5); });
      const { entry, rollout, problems } = session?.report() ?? {};
      all.push({ link: session?.link(), hash: location.hash.slice(1), problems, entry: entry?.kind, words: document.getElementById('summary')?.textContent,
        numbers: [entry?.heading_deg, rollout?.cross_nm, rollout?.to_go_nm, rollout?.at_s, session?.live().end_s] });
    }
    return all;
  }, /** @type {const} */ ([wanted, PATIENCE_MS]));
  for (const [i, [given, written, entry, heading, cross, to_go, at, , end]] of FIRST_VERSION.entries()) {
    const seen = answers[i];
    assert.deepEqual([seen.link, seen.hash, seen.problems, seen.entry], [written, written, [], entry], given);
    assert.equal(seen.words, wanted[i].words, given);
    for (const [n, want] of [heading, cross, to_go, at, end].entries()) {
      assert.ok(Math.abs(seen.numbers[n] - want) <= 1e-9 * (1 + Math.abs(want)), `${given}: ${seen.numbers[n]}, not ${want}`);
    }
  }
});

const LONG = 100000;
/** Hashes as they may come; `#` is put before. @type {Record<string, string>} */
const HOSTILE = {
  '100 kB of one value': `wind=${'9'.repeat(LONG)}`,
  '100 kB of one key': 'w'.repeat(LONG),
  '100 kB of separators': '&=#?'.repeat(LONG / 4),
  'thousands of keys': Array.from({ length: 5000 }, (_, i) => `k${i}=${i}`).join('&'),
  'one key thousands of times': Array.from({ length: 5000 }, (_, i) => `wind=${1 + (i % 360)}/${i % 150}`).join('&'),
  'a zero byte': 'wind=1%0060/24&%00=%00&fix=A%00B',
  'broken escapes': 'wind=160/24%&inbound=%2&arrive=%GG&fix=%E0%A4%A&%=%&mode=%&view=%E0&set=%80&step=%C3%28',
  'unpaired surrogates': 'fix=%ED%A0%80&wind=%ED%BF%BF/24&%ED%A0%80=1&view=%ED%A0%80',
  'surrogates as they are': 'fix=\ud800&wind=\udfff&\ud800=\udc00\ud800',
  markup: 'fix=%3Cimg%20src%3Dx%20onerror%3D"globalThis.hit=1"%3E&wind=<script>globalThis.hit=1</script>&<b>=<i>&mode=<svg/onload=hit=1>&view="><b>&code=<b>&set=<b>',
  'names of objects': '__proto__=1&constructor=2&toString=3&view=constructor&mode=__proto__&step=toString&set=hasOwnProperty',
  'numbers that are none': 'wind=NaN/Infinity&inbound=-0&arrive=1e400&tas=0x10&altitude=1e-400&laps=١٢&time=∞&leg=--1&bank=+-2',
  'other ways of a mode': 'mode=practice&set=javascript:alert(1)&code=%00%00&check=1&check=%',
  'maps of nonsense': 'mode=winds&map=<b>&plan=constructor&less=NaN&most=1e999&tol=-1&cloud=%&spread=,,,,,',
};

/** What the page makes of an address, as the core makes it of the link. @param {import('./lesson.mjs').Page} page @param {string} name */
async function stands(page, name) {
  await page.waitForFunction(() => globalThis.__lesson !== undefined);
  const link = await ask(page, 'link');
  const seen = await report(page);
  assert.ok(link.length < 2000, `${name}: the page's own link is short`);
  assert.equal(core.evaluate(link).link, link, name);
  assert.ok(seen.problems.length < 100, `${name}: ${seen.problems.length} problems`);
  for (const { message } of seen.problems) assert.ok(message.length < 1000, `${name}: ${message.length} characters`);
  assert.deepEqual(core.evaluate(link).problems, [], name);
  assert.equal(await page.evaluate(() => 'hit' in globalThis), false, name);
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth > innerWidth), false, `${name}: nothing sticks out`);
  await saysNoNonsense(page);
}

lesson.test('hostile addresses one after another, as the hash of a page that stands', { at: '?webgl=false' }, async (page) => {
  for (const [name, hash] of Object.entries(HOSTILE)) {
    await page.evaluate((to) => { location.hash = to; }, hash);
    await page.evaluate(() => new Promise((done) => { setTimeout(done, 50); }));
    await stands(page, name);
  }
  await page.evaluate(() => { location.hash = 'mode=explore'; });
  await page.waitForFunction(() => document.body.dataset.mode === 'explore');
  await works(page, 31);
});

// A server takes no address of any length, and what it says to one is its own.
const QUERY_MOST = 8000;
lesson.test('a page opened with such an address, in the hash or the query', { at: '?webgl=false', patience_ms: 240000 }, async (page) => {
  for (const [name, hash] of Object.entries(HOSTILE).filter(([it]) => !/surrogates as/.test(it))) {
    for (const at of [`?webgl=false#${hash}`, `?webgl=false&${hash.slice(0, QUERY_MOST)}`]) {
      await page.goto('about:blank');
      await page.goto(lesson.url + at);
      await isReady(page, 'core');
      await stands(page, name);
    }
  }
});
