// A monkey at the page: gestures by chance, in an engine, and after each burst of them what must
// always be so. A failure says seed and step, so that it can be had again.
//   node tests/soak/monkey.mjs [--engine chromium|firefox|webkit] [--minutes N | --bursts N] [--seed N] [--crashes N]
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { serve } from '../../web/serve.mjs';
import { startEngine } from '../browser/engines.mjs';
import { fencedCopy } from './fence.mjs';
import { GESTURES } from './gestures.mjs';
import { faults, halt, rest } from './look.mjs';
import { chance } from './random.mjs';

/** @typedef {import('../browser/engines.mjs').Engine} Engine */
/** @typedef {import('../browser/engines.mjs').EngineName} EngineName */
/** @typedef {{minute: number, heap_mb: number | null, nodes: number | null, listeners: number | null, wasm_mb: number}} Memory */
/** @typedef {{engine: string, seed: number, steps: number, bursts: number, minutes: number, crashes: number, memory: Memory[], failure: string}} Outcome */

/** Gestures between two looks at the page. */
const BURST = 12;
/** Bursts between two looks at its memory. */
const WEIGH_EVERY = 10;
const MB = 2 ** 20;
/** What engines say of themselves, or of what the fence keeps from them. */
const NOT_OURS = /ResizeObserver loop|AbortError|NotAllowedError|preload|Layout was forced|unreachable code|scroll-linked/i;

/** What the drivers say where the browser, or the process of its page, has ended by itself. */
const CRASHED = /page crash|(Target|Page) crashed|session deleted|invalid session id|socket hang up|ECONNRE(SET|FUSED)|(Target|Session|Connection) closed/i;

/**
 * Back where every page begins, so that two looks compare the same page.
 * @param {Engine} page
 */
async function home(page) {
  await page.resize(1280, 860);
  await page.evaluate(async () => {
    location.hash = '#view=plan';
    for (let n = 0; n < 200 && (document.body.dataset.mode ?? 'explore') !== 'explore'; n += 1) await new Promise((done) => { setTimeout(done, 20); });
    document.getElementById('tab-plan')?.click();
    document.getElementById('reset')?.click();
    document.getElementById('fit')?.click();
  });
  await page.evaluate(rest);
}

/** @param {Engine} page @param {number} began_ms @returns {Promise<Memory>} */
async function weigh(page, began_ms) {
  await home(page);
  const wasm = await page.evaluate(() => globalThis.__lesson?.session.diagram().items.buffer.byteLength ?? 0);
  const { heap, nodes, listeners } = await page.memory?.() ?? { heap: null, nodes: null, listeners: null };
  return { minute: (Date.now() - began_ms) / 60000, heap_mb: heap === null ? null : heap / MB, nodes, listeners, wasm_mb: wasm / MB };
}

/**
 * @param {EngineName} name
 * @param {{seed: number, minutes?: number, bursts?: number, crashes?: number, say?: (line: string) => void}} how
 *   `crashes`: so often a browser may end by itself and is started again, which is counted.
 * @returns {Promise<Outcome>}
 */
export async function run(name, { seed, minutes = 0, bursts = Infinity, crashes = 0, say = () => {} }) {
  const copy = fencedCopy();
  const site = await serve(copy.folder);
  let page = await startEngine(name);
  const open = async () => {
    await page.open(`${site.url}${name === 'chromium' ? '' : '?webgl=false'}`);
    await page.waitFor(() => /core|view/.test(document.documentElement.dataset.ready ?? ''));
  };
  const began_ms = Date.now();
  const random = chance(seed);
  /** @type {Outcome} */
  const outcome = { engine: name, seed, steps: 0, bursts: 0, minutes: 0, crashes: 0, memory: [], failure: '' };
  const state = { caused: false, depth: 0 };
  /** Gestures of this burst, and of the one before. @type {string[]} */
  let done = [];
  /** @type {string[]} */
  let before = [];
  /** One burst and the look after it; whether something is wrong. */
  const burst = async () => {
    before = done;
    done = [];
    for (let n = 0; n < BURST; n += 1) {
      outcome.steps += 1;
      done.push(await random.weighed(GESTURES)(page, random, state));
    }
    outcome.bursts += 1;
    await page.evaluate(halt);
    const restless = await page.evaluate(rest);
    const wrong = [...(restless ? [`it does not rest: ${restless}`] : []), ...await page.evaluate(faults, state.caused),
      ...(await page.complaints()).filter((line) => !NOT_OURS.test(line)).map((line) => `complaint: ${line}`)];
    if (wrong.length) {
      outcome.failure = wrong.join('\n  ');
      return true;
    }
    // What a field brought is put right now and then.
    if (random.next() < 0.4) {
      await home(page);
      done.push('home');
      state.caused = false;
    }
    if (outcome.bursts % WEIGH_EVERY === 0) {
      outcome.memory.push(await weigh(page, began_ms));
      state.caused = false;
      const now = outcome.memory[outcome.memory.length - 1];
      say(`${name} ${now.minute.toFixed(1)} min, ${outcome.steps} steps, heap ${now.heap_mb?.toFixed(1) ?? '–'} MB, ${now.nodes ?? '–'} nodes, wasm ${now.wasm_mb.toFixed(1)} MB`);
    }
    return false;
  };
  try {
    await open();
    while (outcome.bursts < bursts && (minutes === 0 || Date.now() - began_ms < minutes * 60000)) {
      try {
        if (await burst()) break;
      } catch (error) {
        if (outcome.crashes >= crashes || !CRASHED.test(String(error))) throw error;
        outcome.crashes += 1;
        say(`${name} ended by itself after ${outcome.steps} steps: ${String(error).split('\n')[0]}; after ${done.join('; ')}`);
        await page.close().catch(() => {});
        page = await startEngine(name);
        state.caused = false;
        state.depth = 0;
        await open();
      }
    }
  } catch (error) {
    outcome.failure = String(error instanceof Error ? error.stack : error);
  } finally {
    outcome.minutes = (Date.now() - began_ms) / 60000;
    await page.close();
    await site.close();
    copy.remove();
  }
  if (!outcome.failure) outcome.failure = growth(outcome.memory);
  else outcome.failure = `seed ${seed}, step ${outcome.steps}, burst ${outcome.bursts}:\n  ${outcome.failure}\n  before: ${before.join('; ')}\n  after: ${done.join('; ')}`;
  return outcome;
}

/**
 * Whether it holds more at the end than once every part had come: the middle of the last third of the
 * looks against that of the second. Empty: it does not.
 * @param {Memory[]} memory
 */
export function growth(memory) {
  const third = Math.floor(memory.length / 3);
  if (third < 2) return '';
  /** @param {Memory[]} some @param {'heap_mb' | 'nodes' | 'listeners' | 'wasm_mb'} what */
  const middle = (some, what) => some.map((one) => one[what] ?? 0).sort((a, b) => a - b)[Math.floor(some.length / 2)];
  const limits = /** @type {const} */ ({ heap_mb: [1.15, 1], nodes: [1.1, 300], listeners: [1.1, 50], wasm_mb: [1.1, 1] });
  return Object.entries(limits).flatMap(([what, [share, more]]) => {
    const key = /** @type {keyof typeof limits} */ (what);
    const [before, after] = [middle(memory.slice(third, 2 * third), key), middle(memory.slice(-third), key)];
    return after > before * share + more ? [`memory grows: ${what} from ${before.toFixed(1)} to ${after.toFixed(1)}`] : [];
  }).join('\n');
}

/** @param {Outcome[]} all */
function table(all) {
  const rows = all.map(({ engine, seed, minutes, bursts, steps, crashes, memory, failure }) => {
    const [first, last] = [memory[Math.floor(memory.length / 3)], memory[memory.length - 1]];
    /** @param {'heap_mb' | 'nodes' | 'wasm_mb'} what @param {number} digits */
    const from_to = (what, digits) => (first?.[what] == null ? '–' : `${first[what]?.toFixed(digits)} → ${last[what]?.toFixed(digits)}`);
    return [engine, String(seed), minutes.toFixed(1), String(bursts), String(steps), String(crashes), from_to('heap_mb', 1), from_to('nodes', 0), from_to('wasm_mb', 1), failure ? 'FAILED' : 'well'];
  });
  const head = ['engine', 'seed', 'minutes', 'bursts', 'gestures', 'crashes', 'heap MB', 'nodes', 'wasm MB', 'ended'];
  return [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { values } = parseArgs({ options: { engine: { type: 'string' }, minutes: { type: 'string' }, bursts: { type: 'string' }, seed: { type: 'string', default: '1' }, crashes: { type: 'string', default: '0' } } });
  const engines = /** @type {EngineName[]} */ (values.engine ? [values.engine] : ['chromium', 'firefox', 'webkit']);
  const how = { seed: Number(values.seed), crashes: Number(values.crashes), bursts: values.bursts ? Number(values.bursts) : Infinity, minutes: Number(values.minutes ?? (values.bursts ? 0 : 30)) };
  /** @type {Outcome[]} */
  const all = [];
  for (const engine of engines) all.push(await run(engine, { ...how, say: console.log }));
  console.log(`\n${table(all)}`);
  for (const { engine, failure } of all) if (failure) console.error(`\n${engine}: ${failure}`);
  process.exit(all.some(({ failure }) => failure) ? 1 : 0);
}
