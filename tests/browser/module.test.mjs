// The module as others use it: the folder build/module with its examples, and every piece of
// code in docs/module.md.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { axeFindsNothing, fitsAt } from './access.mjs';
import { PATIENCE_MS, SITE, coreInNode, lessons, text } from './lesson.mjs';

const project = fileURLToPath(new URL('../../', import.meta.url));
const MODULE = join(SITE, '../module');
const browser = await lessons({ folder: MODULE });
const core = await coreInNode();

const docs = readFileSync(join(project, 'docs/module.md'), 'utf8');
/** Pieces of code in a language. @param {string} name */
const pieces = (name) => [...docs.matchAll(new RegExp(`^\`\`\`${name}\\n([^]*?)^\`\`\`$`, 'gm'))].map(([, code]) => code);

/** The examples' own way to write a miss. @param {number} nm */
const miss = (nm) => (Math.abs(nm) < 0.05 ? 'on course' : `${Math.abs(nm).toFixed(1)} ${nm < 0 ? 'past' : 'short'}`);

const HOLD = 'inbound=90&turns=right&arrive=300';

browser.test('the example of plans shows what the core says, for the wind that is typed', { at: `examples/plans.html#${HOLD}`, ready: null }, async (page, complaints) => {
  /** @param {string} wind */
  const showsPlans = async (wind) => {
    const answer = core.evaluate(`${HOLD}&wind=${wind}`);
    await page.getByText(answer.outcome, { exact: true }).waitFor();
    const cells = await page.locator('#plans tr').evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent)));
    assert.deepEqual(cells.map(([name, , , off]) => [name, off]), answer.plans.map((plan) => [plan.name, plan.cross_nm === null ? '–' : miss(plan.cross_nm)]));
    assert.deepEqual(cells.map(([, heading]) => (heading === '–' ? null : Number(heading?.replace('°', '')))),
      answer.plans.map(({ heading_deg }) => (heading_deg === null ? null : Math.round(heading_deg) % 360 || 360)));
  };
  await showsPlans('160/24');
  await page.locator('#from').fill('310');
  await page.locator('#speed').fill('30');
  await showsPlans('310/30');
  await page.locator('#speed').fill('200');
  await page.getByText(core.evaluate('wind=310/200').problems[0].message).waitFor();
  await page.locator('#speed').fill('15');
  await showsPlans('310/15');
  await axeFindsNothing(page, 'plans');
  await fitsAt(page, [320, 1280]);
  assert.deepEqual(complaints, []);
});

browser.test('the example of a worker maps what the core says, in colours and in words', { at: 'examples/wind-map.html', ready: null }, async (page, complaints) => {
  const winds = Array.from({ length: 6 }, (_, s) => Array.from({ length: 24 }, (__, d) => ({ from: 15 * (d + 1), kt: 5 * (s + 1) }))).flat();
  const misses = winds.map(({ from, kt }) => core.evaluate(`rule=drift-once&wind=${from}/${kt}`).rollout?.cross_nm ?? NaN);
  const near = misses.filter((nm) => Math.abs(nm) <= 0.25).length;
  await page.getByText(`In ${near} of ${winds.length} winds`).waitFor();
  const at = (/** @type {number} */ nm) => {
    const { from, kt } = winds[misses.indexOf(nm)];
    return `${miss(nm)}, in ${String(from).padStart(3, '0')}° at ${kt} kt.`;
  };
  const summary = await text(page, '#summary');
  assert.ok(summary.includes(at(Math.min(...misses))) && summary.includes(at(Math.max(...misses))), summary);
  const cells = await page.locator('#rows td').allTextContents();
  assert.deepEqual(cells, misses.slice(3 * 24, 4 * 24).map(miss));
  assert.equal(await page.getByRole('img', { name: summary }).count(), 1);
  // A patch of the strongest wind has the colour of its side, the more of it the larger the miss.
  const farthest = winds[misses.indexOf(Math.min(...misses))];
  const [r, , b] = await page.locator('#map').evaluate((canvas, { from, kt }) => {
    if (!(canvas instanceof HTMLCanvasElement)) throw new Error('no canvas');
    const ring = (canvas.clientWidth / 2 - 36) / 7;
    const out = (kt / 5 + 0.5) * ring;
    const turned = ((from - 90) * Math.PI) / 180;
    const scale = canvas.width / canvas.clientWidth;
    return [...canvas.getContext('2d')?.getImageData((canvas.clientWidth / 2 + out * Math.cos(turned)) * scale, (canvas.clientWidth / 2 + out * Math.sin(turned)) * scale, 1, 1).data ?? []];
  }, farthest);
  assert.ok(r > b + 60, `${r} and ${b}: past the course it is orange`);
  await axeFindsNothing(page, 'map');
  await fitsAt(page, [320, 1280]);
  await page.locator('#rule').selectOption('drift-triple');
  await page.waitForFunction((before) => document.querySelector('#summary')?.textContent !== before, summary);
  assert.deepEqual(complaints, []);
});

test('the code for Node.js in docs/module.md says what stands beside it', () => {
  const all = pieces('js');
  const whole = all.filter((code) => /\bload\(/.test(code));
  // The others go on from one another, with a core.
  const rest = all.filter((code) => !whole.includes(code)).join('\n');
  const site = `./${relative(project, SITE)}`;
  for (const code of [...whole, `import { load } from './build/site/core.mjs';\nconst core = await load();\n${rest}`]) {
    // From the project's folder, as the text says.
    const out = execFileSync(process.execPath, ['--input-type=module', '-e', code.replaceAll('./build/site', site)], { cwd: project, encoding: 'utf8', timeout: PATIENCE_MS });
    const wanted = [...code.matchAll(/console\.log\(.*\);\s*\/\/ (.*)$/gm)].map(([, value]) => value);
    assert.deepEqual(out.trim().split('\n').filter(Boolean), wanted, code);
  }
});

test('docs/module.md has the size as it is, to a tenth', () => {
  const kilobytes = Number(/core\.wasm` has about (\d+) kB/.exec(docs)?.[1]);
  assert.ok(Math.abs(statSync(join(MODULE, 'core.wasm')).size / 1000 - kilobytes) < 0.1 * kilobytes, `${kilobytes} kB`);
});

for (const [i, code] of pieces('html').entries()) {
  browser.test(`page ${i + 1} of docs/module.md runs under the policy that it names`, {
    at: `page-${i}.html#wind=310/30`,
    ready: null,
    before: (page) => page.route(/page-\d+\.html/, (route) => route.fulfill({
      contentType: 'text/html',
      body: `<!doctype html>${code}`,
      // An inline script in a piece of a few lines; a real page has a file.
      headers: { 'Content-Security-Policy': "default-src 'none'; script-src 'self' 'wasm-unsafe-eval' 'unsafe-inline'; connect-src 'self'; worker-src 'self'; img-src data:" },
    })),
  }, async (page) => {
    await page.getByText(core.evaluate('wind=310/30').outcome, { exact: true }).waitFor();
  });
}
