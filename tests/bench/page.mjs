// Times the page against the bare SDL2 and Dear ImGui page in one Chromium: to the first picture, to
// the first frame that a hand can act on, on a fast line and on a slow one; looks whether it rests
// when nothing happens, how it follows a drag, and whether its memory stays flat while it is used.
//   node tests/bench/page.mjs --site FOLDER --bare FOLDER --out FILE.json [--rounds N] [--soak MINUTES]
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { brotliCompressSync, constants } from 'node:zlib';
import { atRest, handlePlace, isReady, launch, WIND } from '../browser/lesson.mjs';

const { values: options } = parseArgs({
  options: { site: { type: 'string' }, bare: { type: 'string' }, out: { type: 'string' },
    rounds: { type: 'string', default: '7' }, soak: { type: 'string', default: '1' } },
});
if (!options.site || !options.bare || !options.out) throw new Error('--site, --bare and --out are needed');
const rounds = Number(options.rounds);
const soak_min = Number(options.soak);

/** A school's Wi-Fi at a bad hour, shared by a class; and this machine's own line. */
const LINES = {
  fast: null,
  slow: { offline: false, latency: 60, downloadThroughput: 3e6 / 8, uploadThroughput: 1e6 / 8 },
};
const SIZE = { width: 1280, height: 860 };
const IDLE_MS = 5000;
const PATIENCE_MS = 60000;
const MOVES = 240;

// --- the two pages ----------------------------------------------------------------

/** @type {Record<string, string>} */
const TYPES = { '.html': 'text/html; charset=utf-8', '.css': 'text/css', '.js': 'text/javascript', '.mjs': 'text/javascript',
  '.wasm': 'application/wasm', '.json': 'application/json', '.webmanifest': 'application/manifest+json', '.svg': 'image/svg+xml',
  '.png': 'image/png', '.woff2': 'font/woff2' };
/** As small as it can be, and all its files are asked for at once. */
const BARE_PAGE = `<!doctype html><meta charset="utf-8"><title>Bare page</title>
<link rel="modulepreload" href="bare.mjs"><link rel="preload" href="bare.wasm" as="fetch" crossorigin>
<canvas id="canvas" width="640" height="480"></canvas>
<script type="module">import create from './bare.mjs'; create({ canvas: document.getElementById('canvas') });</script>`;

/** @typedef {{type: string, plain: Buffer, packed: Buffer}} Served */

/** @param {string} name @param {Buffer} plain @returns {Served} */
function served(name, plain) {
  const type = TYPES[extname(name)] ?? 'application/octet-stream';
  const packed = /woff2|png/.test(type) ? plain : brotliCompressSync(plain, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } });
  return { type, plain, packed };
}

/** @param {string} folder @returns {Map<string, Served>} */
const folderOf = (folder) => new Map(readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile())
  .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
  .map((file) => /** @type {const} */ ([file.slice(folder.length + 1), readFileSync(file)]))
  .map(([name, plain]) => [name === 'index.html' ? '' : name, served(name, plain)]));

/** Brotli as on a good server, nothing kept. @param {Map<string, Served>} files */
async function serve(files) {
  const server = createServer((request, response) => {
    const file = files.get(new URL(request.url ?? '/', 'http://127.0.0.1').pathname.slice(1));
    if (!file) return response.writeHead(404).end();
    const is_packed = file.packed !== file.plain;
    response.writeHead(200, { 'Content-Type': file.type, 'Content-Length': file.packed.length, 'Cache-Control': 'no-store',
      ...(is_packed ? { 'Content-Encoding': 'br' } : {}) }).end(file.packed);
  });
  await new Promise((done) => { server.listen(0, '127.0.0.1', () => done(null)); });
  const address = server.address();
  return { url: `http://127.0.0.1:${typeof address === 'object' && address ? address.port : 0}/`,
    close: () => { server.close(); server.closeAllConnections(); } };
}

const site_files = folderOf(options.site);
const bare_files = new Map([['', served('a.html', Buffer.from(BARE_PAGE))],
  .../** @type {[string, Served][]} */ (['bare.mjs', 'bare.wasm'].map((name) => [name, served(name, readFileSync(join(/** @type {string} */ (options.bare), name)))]))]);
const pages = { ours: await serve(site_files), bare: await serve(bare_files) };
const browser = await launch();

// --- first picture, first frame -------------------------------------------------------

/** In the page, before anything of it: notes when what is looked for has been put on the screen. */
function watching() {
  /** @type {Record<string, number>} */
  const seen = {};
  Object.assign(globalThis, { seen });
  /** After the frame in which it is drawn. @param {string} what */
  const shown = (what) => {
    if (what in seen) return;
    seen[what] = NaN;
    requestAnimationFrame(() => { setTimeout(() => { seen[what] = performance.now(); }); });
  };
  for (const { prototype } of [WebGLRenderingContext, WebGL2RenderingContext]) {
    const draw = prototype.drawElements;
    prototype.drawElements = function drawn(...args) {
      shown('canvas');
      return draw.apply(this, args);
    };
  }
  const look = () => {
    const [svg] = [...document.querySelectorAll('#picture svg')].filter((one) => one.getBoundingClientRect().width > 100);
    if (svg) shown('svg');
    if (document.documentElement?.dataset.ready) shown('enabled');
    if (!('enabled' in seen && 'svg' in seen && 'canvas' in seen)) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

/** @typedef {Record<'picture' | 'frame' | 'canvas', number>} Opened First picture, first frame that a hand can act on, first canvas. */

/**
 * @param {'ours' | 'bare'} kind @param {keyof typeof LINES} line
 * @returns {Promise<Opened>} ms from the start of the navigation
 */
async function timed(kind, line) {
  const context = await browser.newContext({ viewport: SIZE, serviceWorkers: 'block' });
  try {
    const page = await context.newPage();
    await page.addInitScript(watching);
    const talk = await context.newCDPSession(page);
    await talk.send('Network.enable');
    await talk.send('Network.setCacheDisabled', { cacheDisabled: true });
    const conditions = LINES[line];
    if (conditions) await talk.send('Network.emulateNetworkConditions', conditions);
    await page.goto(pages[kind].url, { waitUntil: 'commit' });
    await page.waitForFunction((ours) => {
      const { seen } = /** @type {{seen: Record<string, number>}} */ (/** @type {unknown} */ (globalThis));
      return seen && seen.canvas > 0 && (!ours || (seen.svg > 0 && seen.enabled > 0));
    }, kind === 'ours', { timeout: PATIENCE_MS });
    const seen = await page.evaluate(() => /** @type {any} */ (globalThis).seen);
    return kind === 'ours' ? { picture: seen.svg, frame: seen.enabled, canvas: seen.canvas } : { picture: seen.canvas, frame: seen.canvas, canvas: seen.canvas };
  } finally {
    await context.close();
  }
}

/** @param {number[]} all */
const median = (all) => [...all].sort((a, b) => a - b)[all.length >> 1];

/** @param {keyof typeof LINES} line */
async function compared(line) {
  /** @type {Record<'ours' | 'bare', Opened[]>} */
  const times = { ours: [], bare: [] };
  // The first of each fills the system's own caches, and is not counted.
  for (const kind of /** @type {const} */ (['bare', 'ours'])) await timed(kind, line);
  for (let round = 0; round < rounds; round += 1) {
    const order = /** @type {const} */ (['bare', 'ours', 'bare']).slice(round % 2, (round % 2) + 2);
    for (const kind of order) times[kind].push(await timed(kind, line));
  }
  const middle = (/** @type {'ours' | 'bare'} */ kind, /** @type {keyof Opened} */ what) => median(times[kind].map((all) => all[what]));
  return {
    picture_ms: middle('ours', 'picture'), frame_ms: middle('ours', 'frame'), canvas_ms: middle('ours', 'canvas'), bare_ms: middle('bare', 'canvas'),
    ...(LINES[line] ? { latency_ms: LINES[line].latency, mbit_s: (LINES[line].downloadThroughput * 8) / 1e6 } : {}),
  };
}

// --- at rest, and in use -----------------------------------------------------------------

/** In the page, before anything of it: counts what it asks the browser to call. */
function counting() {
  const asked = { frames: 0, timers: 0 };
  Object.assign(globalThis, { asked });
  const { requestAnimationFrame: frame, setTimeout: later, setInterval: again } = globalThis;
  globalThis.requestAnimationFrame = (then) => {
    asked.frames += 1;
    return frame(then);
  };
  globalThis.setTimeout = /** @type {any} */ ((/** @type {any[]} */ ...args) => {
    asked.timers += 1;
    return later(.../** @type {[any]} */ (args));
  });
  globalThis.setInterval = /** @type {any} */ ((/** @type {any[]} */ ...args) => {
    asked.timers += 1;
    return again(.../** @type {[any]} */ (args));
  });
}

const pause = (/** @type {number} */ ms) => new Promise((done) => { setTimeout(done, ms); });

/** What the page fetches until it rests, and what it does then. */
async function atRestNow() {
  const context = await browser.newContext({ viewport: SIZE, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.addInitScript(counting);
  /** @type {Set<string>} */
  const asked = new Set();
  page.on('request', (request) => asked.add(new URL(request.url()).pathname.slice(1)));
  await page.goto(pages.ours.url);
  await isReady(page, 'view');
  await atRest(page);
  const counts = () => page.evaluate(() => ({ .../** @type {any} */ (globalThis).asked }));
  // What was begun before may still end: an announcement, a font.
  await pause(1500);
  const before = await counts();
  await pause(IDLE_MS);
  const after = await counts();
  await context.close();
  return { idle_ms: IDLE_MS, idle_frames: after.frames - before.frames, idle_timers: after.timers - before.timers,
    files: [...asked].filter((name) => site_files.has(name)).map((name) => ({ name: name || 'index.html', packed: site_files.get(name)?.packed.length ?? 0 })) };
}

/** Memory while the wind is dragged round and flights are flown. */
async function soaked() {
  const context = await browser.newContext({ viewport: SIZE, serviceWorkers: 'block' });
  const page = await context.newPage();
  const talk = await context.newCDPSession(page);
  await talk.send('Performance.enable');
  await page.goto(pages.ours.url);
  await isReady(page, 'view');
  await page.locator('#speed').selectOption('30');
  async function memory() {
    await page.mouse.move(5, 5);
    await talk.send('HeapProfiler.collectGarbage');
    const { metrics } = await talk.send('Performance.getMetrics');
    const value = (/** @type {string} */ name) => metrics.find((metric) => metric.name === name)?.value ?? NaN;
    const core_bytes = await page.evaluate(() => globalThis.__lesson?.session.diagram().items.buffer.byteLength ?? NaN);
    return { heap_bytes: value('JSHeapUsedSize'), nodes: value('Nodes'), listeners: value('JSEventListeners'), core_bytes };
  }
  /** One turn of the wind about its dial, and a flight. @param {number} turn */
  async function use(turn) {
    const from = await handlePlace(page, WIND);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    for (let i = 1; i <= 24; i += 1) {
      await page.mouse.move(from.x + 30 * Math.sin((i * Math.PI) / 12), from.y + 24 * (1 - Math.cos((i * Math.PI) / 12)) + (turn % 5));
    }
    await page.mouse.up();
    await page.locator('#play').click();
    await pause(300);
    await page.locator('#scrub').press('End');
  }
  const until = performance.now() + soak_min * 60000;
  // The history and the engine's own caches fill first.
  let turns = 0;
  for (; turns < 10; turns += 1) await use(turns);
  const before = await memory();
  while (performance.now() < until) {
    await use(turns);
    turns += 1;
  }
  const after = await memory();
  await context.close();
  return { minutes: soak_min, turns, before, after };
}

/** Frames while the wind is dragged round the map with map and cloud on. @param {boolean} gl The picture on the canvas. */
async function dragged(gl) {
  const context = await browser.newContext({ viewport: SIZE, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(`${pages.ours.url}${gl ? '' : '?webgl=false'}#mode=winds&cloud=1`);
  await isReady(page, gl ? 'view' : 'core');
  await page.waitForFunction(() => document.getElementById('winds-map')?.dataset.whole === 'true');
  await atRest(page);
  const box = await page.locator('#winds-map').boundingBox();
  if (!box) throw new Error('there is no map');
  const start = await page.locator('#winds-point').boundingBox();
  if (!start) throw new Error('there is no wind on the map');
  await page.evaluate(() => {
    /** @type {{gaps: number[], long: number[], before: number}} */
    const seen = { gaps: [], long: [], before: 0 };
    Object.assign(globalThis, { dragged: seen });
    new PerformanceObserver((list) => { for (const { duration } of list.getEntries()) seen.long.push(duration); }).observe({ type: 'longtask' });
    requestAnimationFrame(function frame(now) {
      if (seen.before) seen.gaps.push(now - seen.before);
      seen.before = now;
      requestAnimationFrame(frame);
    });
  });
  await page.mouse.move(start.x + start.width / 2, start.y + start.height / 2);
  await page.mouse.down();
  for (let i = 0; i < MOVES; i += 1) {
    const angle = (i / MOVES) * 4 * Math.PI;
    const r = box.width * (0.2 + 0.1 * Math.sin(i / 20));
    await page.mouse.move(box.x + box.width / 2 + r * Math.sin(angle), box.y + box.height / 2 - r * Math.cos(angle));
    await pause(12);
  }
  const seen = await page.evaluate(() => /** @type {{gaps: number[], long: number[]}} */ (/** @type {any} */ (globalThis).dragged));
  await page.mouse.up();
  await context.close();
  const gaps = seen.gaps.sort((a, b) => a - b);
  return { moves: MOVES, middle_ms: median(gaps), most_ms: gaps[Math.floor(0.95 * gaps.length)], long_tasks: seen.long.length, longest_ms: Math.max(0, ...seen.long) };
}

const result = { rounds, chromium: browser.version(), fast: await compared('fast'), slow: await compared('slow'), rest: await atRestNow(), drag: { svg: await dragged(false), canvas: await dragged(true) }, soak: await soaked(),
  bare_files: [...bare_files].map(([name, { packed }]) => ({ name: name || 'index.html', packed: packed.length })) };
writeFileSync(options.out, `${JSON.stringify(result, null, 1)}\n`);
await browser.close();
for (const { close } of Object.values(pages)) close();
