// A short run of the monkey in each engine, always the same gestures; ./tests/soak/run.sh is the long one.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { fencedCopy } from '../soak/fence.mjs';
import { faults, rest } from '../soak/look.mjs';
import { growth, run } from '../soak/monkey.mjs';
import { ENGINES } from './engines.mjs';
import { PATIENCE_MS, addressSettled, ask, enter, isReady, launch } from './lesson.mjs';

/** About twenty seconds in each. */
const BURSTS = 10;
const SEED = 7;

for (const name of ENGINES) {
  test(`${name}: whatever is done to the page, it says what the core says, and comes to rest`, { timeout: 8 * PATIENCE_MS }, async (t) => {
    const { steps, bursts, failure } = await run(name, { seed: SEED, bursts: BURSTS });
    t.diagnostic(`${steps} gestures, seed ${SEED}`);
    assert.equal(failure, '');
    assert.equal(bursts, BURSTS);
  });
}

test('a memory that grows is seen, and one that does not is not', () => {
  const looks = (/** @type {(n: number) => number} */ heap_mb) => Array.from({ length: 12 }, (_, n) =>
    ({ minute: n, heap_mb: heap_mb(n), nodes: 4000 + (n % 3) * 50, listeners: 400, wasm_mb: 2 }));
  assert.equal(growth(looks((n) => 3 + (n % 2) / 4)), '');
  assert.match(growth(looks((n) => 3 + n)), /heap_mb from/);
});

/** Ways to spoil the page, and what must be said of each. @type {[said: RegExp, spoil: () => void][]} */
const SPOILT = [
  [/the report’s rollout/, () => {
    const session = /** @type {any} */ (globalThis.__lesson?.session);
    const { report } = session;
    session.report = () => ({ ...report(), rollout: { cross_nm: 0 } });
  }],
  [/nobody caused/, () => {
    const session = /** @type {any} */ (globalThis.__lesson?.session);
    const { report } = session;
    session.report = () => ({ ...report(), problems: [{ key: 'wind', message: 'No.' }] });
  }],
  [/the address/, () => history.replaceState(null, '', '#wind=1/1')],
  [/in view stands "[^"]*NaN/, () => document.getElementById('happens')?.append(' NaN NM')],
  [/the notice says/, () => document.getElementById('notice')?.removeAttribute('hidden')],
  [/undo and redo lead/, () => {
    const session = /** @type {any} */ (globalThis.__lesson?.session);
    session.redo = () => session.set('laps', '7');
  }],
  [/the summary in view/, () => document.getElementById('summary')?.replaceChildren('Old.')],
];

test('what the monkey looks for is seen', { timeout: 4 * PATIENCE_MS }, async () => {
  const copy = fencedCopy();
  const site = await serve(copy.folder);
  const browser = await launch({ gl: false });
  try {
    const page = await browser.newPage();
    for (const [said, spoil] of SPOILT) {
      await page.goto('about:blank');
      await page.goto(`${site.url}?webgl=false`);
      await isReady(page, 'core');
      await enter(page, 'wind-kt', '31');
      await addressSettled(page);
      assert.equal(await ask(page, 'canUndo'), true);
      assert.equal(await page.evaluate(rest, 60), '');
      assert.deepEqual(await page.evaluate(faults, false), []);
      await page.evaluate(spoil);
      assert.match((await page.evaluate(faults, false)).join('\n'), said);
    }
    await page.evaluate(() => { setInterval(() => {}, 100); });
    assert.match(await page.evaluate(rest, 4), /timers/);
  } finally {
    await browser.close();
    await site.close();
    copy.remove();
  }
});
