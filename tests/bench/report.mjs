// Turns the rounds of one run into a table of ratios.
//   node tests/bench/report.mjs RESULTS BUILD OUTPUT.md
import { execFileSync } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';

const [, , results = '', build = '', output = ''] = process.argv;

// --- times ------------------------------------------------------------------------

/** @typedef {Record<string, number>} Round Nanoseconds of each benchmark, and the program's facts. */

/** @param {string} text What the program said: lines of facts, and Catch2's benchmarks as XML. @returns {Round} */
const roundOf = (text) => Object.fromEntries([
  ...[...text.matchAll(/^fact (\S+) (\S+)$/gm)].map(([, name, value]) => [name, Number(value)]),
  ...[...text.matchAll(/<BenchmarkResults name="([^"]+)"[^]*?<mean value="([^"]+)"/g)].map(([, name, value]) => [name, Number(value)]),
]);
/** @param {string} program @returns {Round[]} in the order they were run */
const roundsOf = (program) => {
  const numbers = readdirSync(results).map((file) => file.split('.'))
    .filter(([name]) => name === program).map(([, number]) => Number(number)).sort((a, b) => a - b);
  return numbers.map((number) => roundOf(readFileSync(join(results, `${program}.${number}.txt`), 'utf8')));
};
/** Of tests/bench/page.mjs. */
const opened = JSON.parse(readFileSync(join(results, 'page.json'), 'utf8'));
const native = roundsOf('native');
const wasm = roundsOf('wasm');
const simd = roundsOf('simd');
if (native.length === 0 || native.length !== wasm.length || native.length !== simd.length) throw new Error(`${results}: rounds are missing`);

/** Of work that is done so many times in a benchmark: once. */
const TIMES = /** @type {const} */ ([['flight', 'flights'], ['whole', 'flights'], ['trig', 'flights'], ['odeint', 'flights'],
  ['map-singles', 'singles'], ['map-odeint', 'integrated']]);
for (const rounds of [native, wasm, simd]) {
  for (const round of rounds) {
    for (const [name, times] of TIMES) if (name in round) round[name] /= round[times];
    round['map-cell'] = round.map / round.cells;
    round['cloud-flight'] = round['cloud-10000'] / 10000;
  }
}

/** @param {number[]} values */
const median = (values) => {
  const sorted = [...values].sort((a, b) => a - b);
  const value = sorted[sorted.length >> 1];
  if (value === undefined || !Number.isFinite(value)) throw new Error(`${results}: a number is missing`);
  return value;
};
/** @param {Round[]} rounds @param {string} key */
const middle = (rounds, key) => median(rounds.map((round) => round[key] ?? NaN));
/** Each round makes its own ratio; the middle one counts.
 * @param {Round[]} over @param {string} a @param {Round[]} under @param {string} b */
const ratio = (over, a, under, b) =>
  median(over.map((round, i) => (round[a] ?? NaN) / (under[i]?.[b] ?? NaN)));

// --- bytes ------------------------------------------------------------------------

/** @param {Uint8Array} bytes */
const packed = (bytes) => brotliCompressSync(bytes, {
  params: { [constants.BROTLI_PARAM_QUALITY]: 11 },
}).length;
/** @param {string} file */
const weight = (file) => packed(readFileSync(file));
/** As web/build-site.mjs does it to the page's own. @param {string} file */
const minified = (file) =>
  packed(execFileSync('esbuild', ['--minify', '--format=esm', '--log-level=warning', file]));

const site = join(build, 'site');
/** @param {string} name */
const isProgram = (name) => /\.(m?js|wasm)$/.test(name);
/** What the page fetched by itself until it rested; all else comes when it is asked for. @type {string[]} */
const scripts = opened.rest.files.map((/** @type {{name: string}} */ { name }) => name).filter(isProgram);
if (scripts.length < 5) throw new Error('the page fetched too little to be whole');
const page = scripts.reduce((sum, name) => sum + weight(join(site, name)), 0);
const later = readdirSync(site).filter((name) => isProgram(name) && !scripts.includes(name) && name !== 'service-worker.js')
  .map((name) => ({ name: name.replace(/-\w{8}(?=\.js$)/, ''), bytes: weight(join(site, name)) })).sort((a, b) => b.bytes - a.bytes);
/** Those that only other parts bring along are said together. */
const parts = [...later.filter(({ name }) => name !== 'chunk.js'), { name: 'what these share', bytes: later.filter(({ name }) => name === 'chunk.js').reduce((sum, { bytes }) => sum + bytes, 0) }];
/** Fetched too, and not counted: text, style, letters. @type {{name: string, packed: number}[]} */
const beside = opened.rest.files.filter((/** @type {{name: string}} */ { name }) => !isProgram(name));
/** @param {string} name */
const built = (name) => join(build, 'wasm', name);
const bare = weight(built('bare.wasm')) + weight(built('bare.mjs'));
const bare_minified = weight(built('bare.wasm')) + minified(built('bare.mjs'));
const lean_minified = weight(built('bare_lean.wasm')) + minified(built('bare_lean.mjs'));

// --- words ------------------------------------------------------------------------

/** First line that a tool says about itself. @param {string} command */
const version = (command) => {
  const line = execFileSync(command, ['--version'], { encoding: 'utf8' }).split('\n')[0] ?? '';
  return line.replace(/ \(Emscripten[^)]*\)/, '').replace(/ \(\)$/, '').trim();
};
/** @param {number} r */
const times = (r) => `${r.toFixed(r < 10 ? 2 : 1)}×`;
/** @param {number} n */
const kb = (n) => `${(n / 1000).toFixed(1)} kB`;
/** @param {Round[]} a @param {string} of_a @param {Round[]} b @param {string} of_b */
const nanoseconds = (a, of_a, b, of_b) =>
  `${middle(a, of_a).toFixed(0)} against ${middle(b, of_b).toFixed(0)} ns`;

/** @param {Round[]} rounds @param {string} name */
const ms = (rounds, name) => `${(middle(rounds, name) / 1e6).toFixed(2)} ms`;
/** How much dearer a piece is in the larger of two: 1 is linear. @param {Round[]} rounds @param {[string, number]} large @param {[string, number]} small */
const growth = (rounds, [large, many], [small, few]) =>
  median(rounds.map((round) => ((round[large] ?? NaN) / many) / ((round[small] ?? NaN) / few)));
/** Laps cost what eight of them cost more than two, a lap, against four more than none. @param {Round[]} rounds */
const lapGrowth = (rounds) => median(rounds.map((round) =>
  ((round['laps-8'] - round['laps-4']) / 4) / ((round['laps-4'] - round['laps-0']) / 4)));

const rows = [
  ['one flight: Boost.odeint against ours, both native', times(ratio(native, 'odeint', native, 'flight')),
    '≥ 25×', nanoseconds(native, 'odeint', native, 'flight')],
  ['the same from the scenario', times(ratio(native, 'odeint', native, 'whole')), '',
    nanoseconds(native, 'odeint', native, 'whole')],
  ['one entry of a map as a batch: Boost.odeint against ours, both native', times(ratio(native, 'map-odeint', native, 'map-cell')),
    '≥ 100×', nanoseconds(native, 'map-odeint', native, 'map-cell')],
  ['one flight against the bare cost of its trigonometric calls, native',
    times(ratio(native, 'flight', native, 'trig')), '≤ 1.5×', nanoseconds(native, 'flight', native, 'trig')],
  ['the same as WebAssembly', times(ratio(wasm, 'flight', wasm, 'trig')), '≤ 1.5×',
    nanoseconds(wasm, 'flight', wasm, 'trig')],
  ['one flight: WebAssembly against native', times(ratio(wasm, 'flight', native, 'flight')), '≤ 1.5×',
    nanoseconds(wasm, 'flight', native, 'flight')],
  ['from the scenario: WebAssembly against native', times(ratio(wasm, 'whole', native, 'whole')), '≤ 1.5×',
    nanoseconds(wasm, 'whole', native, 'whole')],
  ['the map: single flights against the batch, a wind, native', times(ratio(native, 'map-singles', native, 'map-cell')), '≥ 3×',
    nanoseconds(native, 'map-singles', native, 'map-cell')],
  ['the same as WebAssembly with SIMD', times(ratio(simd, 'map-singles', simd, 'map-cell')), '≥ 2.5×',
    nanoseconds(simd, 'map-singles', simd, 'map-cell')],
  ['the same as scalar WebAssembly', times(ratio(wasm, 'map-singles', wasm, 'map-cell')), '',
    nanoseconds(wasm, 'map-singles', wasm, 'map-cell')],
  ['the map, WebAssembly: scalar against SIMD', times(ratio(wasm, 'map', simd, 'map')), '> 1×', `${ms(wasm, 'map')} against ${ms(simd, 'map')}`],
  ['the cloud, WebAssembly: scalar against SIMD', times(ratio(wasm, 'cloud-10000', simd, 'cloud-10000')), '', `${ms(wasm, 'cloud-10000')} against ${ms(simd, 'cloud-10000')}`],
  ['a map of 360 × 61 winds, scalar WebAssembly', ms(wasm, 'map'), '≤ 6 ms', `${middle(wasm, 'map-cell').toFixed(0)} ns a wind`],
  ['its best rule of four for each wind, scalar WebAssembly', ms(wasm, 'map-best'), '', ''],
  ['its picture, 480 px square; its contour lines', `${ms(wasm, 'map-image')}; ${ms(wasm, 'map-lines')}`, '', 'scalar WebAssembly'],
  ['a cloud of 10,000 flights, scalar WebAssembly', ms(wasm, 'cloud-10000'), '≤ 6 ms', `${middle(wasm, 'cloud-flight').toFixed(0)} ns a flight`],
  ['its picture, 800 × 600 px with 300 tracks', ms(wasm, 'cloud-image'), '', 'scalar WebAssembly'],
  ['growth with laps: a lap of the fifth to the eighth against one of the first four', times(lapGrowth(native)), 'about 1', 'native'],
  ['growth with winds: one of 86,760 against one of 21,960', times(growth(native, ['map-4', 86760], ['map-1', 21960])), 'about 1', 'native'],
  ['growth with flights of a cloud: one of 20,000 against one of 2,500', times(growth(native, ['cloud-20000', 20000], ['cloud-2500', 2500])), 'about 1', 'native'],
  ['what the page fetches until it rests against the bare SDL2 and Dear ImGui page', times(page / bare), '≤ 1.3×',
    `${kb(page)} against ${kb(bare)}`],
  ['the same, its scripts minified like ours', times(page / bare_minified), '',
    `${kb(page)} against ${kb(bare_minified)}`],
  ['the same, minified and with the lean SDL2', times(page / lean_minified), '',
    `${kb(page)} against ${kb(lean_minified)}`],
  ...(/** @type {const} */ (['fast', 'slow'])).flatMap((line) => {
    const { picture_ms, frame_ms, canvas_ms, bare_ms } = opened[line];
    const name = line === 'fast' ? 'this machine’s own line' : `a line of ${opened.slow.mbit_s} Mbit/s and ${opened.slow.latency_ms} ms`;
    return [
      [`time to the first picture against the bare page, ${name}`, times(picture_ms / bare_ms), '≤ 0.5×', `${picture_ms.toFixed(0)} against ${bare_ms.toFixed(0)} ms`],
      [`time to the first frame that a hand can act on, ${name}`, times(frame_ms / bare_ms), '≤ 1.2×', `${frame_ms.toFixed(0)} against ${bare_ms.toFixed(0)} ms`],
      [`time to the canvas in place of the SVG, ${name}`, times(canvas_ms / bare_ms), '', `${canvas_ms.toFixed(0)} against ${bare_ms.toFixed(0)} ms`],
    ];
  }),
  ...(/** @type {const} */ ([['svg', 'as SVG'], ['canvas', 'on the canvas, without a graphics card']])).map(([kind, how]) => {
    const { moves, middle_ms, most_ms, long_tasks, longest_ms } = opened.drag[kind];
    return [`dragging the wind with map and cloud on, the picture ${how}: from frame to frame`, `${middle_ms.toFixed(1)} ms`, '',
      `${most_ms.toFixed(1)} ms in 19 of 20; ${long_tasks} tasks over 50 ms${long_tasks ? `, ${longest_ms.toFixed(0)} ms the longest` : ''}; ${moves} moves`];
  }),
  ['at rest: frames and timers asked for', `${opened.rest.idle_frames + opened.rest.idle_timers}`, '0', `in ${(opened.rest.idle_ms / 1000).toFixed(0)} s`],
  [`memory after ${opened.soak.minutes} min of dragging and flying against before`, times(opened.soak.after.heap_bytes / opened.soak.before.heap_bytes), 'flat',
    `${kb(opened.soak.after.heap_bytes)} against ${kb(opened.soak.before.heap_bytes)} of JavaScript; the core's ${kb(opened.soak.after.core_bytes)} against ${kb(opened.soak.before.core_bytes)}; ${opened.soak.after.nodes - opened.soak.before.nodes} nodes more, ${opened.soak.turns} turns`],
];

const text = `# Measured

What counts are the ratios, all of one run; the times and sizes beside them belong to this machine. \`./tests/bench/run.sh\` builds what is measured, measures it and writes this file.

${new Date().toISOString().slice(0, 10)}. ${cpus()[0]?.model ?? 'Unknown processor'}, ${cpus().length} cores. Native: ${version('c++')}. WebAssembly: ${version('emcc')}, run by Node.js ${process.versions.node}. ${native.length} rounds.

| what | ratio | aim | measured |
| --- | --- | --- | --- |
${rows.map((row) => `| ${row.join(' | ')} |`).join('\n')}

## What is timed

- **One flight** is an offset entry and two laps, flown and its roll-outs added up, from a set-up that is ready: ${middle(native, 'pieces').toFixed(1)} closed-form pieces on average. **From the scenario** also works out the airspeed, the turn, three wind triangles, the sector and the plan. Both go through the 64 different scenarios of \`tests/bench/flights.h\`.
- **Boost.odeint** flies the same pieces with Dormand–Prince 5 under step control, 1e-9 absolute and relative a step, first steps chosen in its favour, compiled with -O3 and across files; the core has -O3, file by file. It is given the pieces' times and turn rates and integrates x and y alone, so it does less than the flight. Its ends lie within ${middle(native, 'difference_nm').toExponential(0)} NM of the closed form; the program stops where they differ by 1e-6 NM.
- **The trigonometric calls** are those of the closed forms written out piece by piece: ${middle(native, 'sincos').toFixed(1)} sine and cosine pairs and ${middle(native, 'sin').toFixed(1)} sines a flight, each library's own, in a bare loop. The flight shares a heading's sine and cosine between its pieces, and spends others on finding intercept angles.
- **The map** is that of the opening scene's hold by "drift once": the roll-out in 360 directions at 61 speeds. As a batch the winds lie side by side in memory and go through the one formula two at a time where the processor can (SSE2, WebAssembly's SIMD; \`core/lanes.h\`); single flights work out each wind's triangles and call \`offset_rollout\`. Boost.odeint is given the pieces of every sixtieth direction's entries, from the fix to the roll-out. **The cloud** is the opening scene's with the usual spreads, its random numbers drawn before.
- Catch2's benchmarks time each (100 samples, 50 ms of warming up), natively and in Node.js in turns; each round makes its own ratio, and the middle one stands above. The WebAssembly programs have the core that core.wasm and study.wasm are linked from.

## What limits it, and what was done

Counted with callgrind and looked at with the browser's profiler on 2026-11-26; these numbers are not measured anew by the bench.

- **One flight** takes about 6,700 instructions, 1,700 of them in 13 pairs of sine and cosine: fewer pairs than the closed forms written out need, since a heading's serve the end of one piece, the start of the next and the laps to come. The rest is the pilot: some 270 instructions for each of 18 pieces, which are written where they stay, with the fix looked for on every inbound piece, the events, and the intercept's angle by Newton's rule from a start that equal turns nearly give. What limits it is how many instructions the processor takes a cycle, five of them: joining files at the link, or writing events where they stay, gained nothing.
- **The map** had been a single flight for each wind. Now a correction's sine is a ratio of speeds and its cosine a root, so that a wind costs two arc sines and no sine or cosine; what does not depend on the wind is worked out once; divisions by the airspeed and the turn rate became products; whole circles are taken off by one product; signs are bits. What is left is three divisions, two roots and the polynomials. SIMD nearly halves it, so it is kept: it is two files compiled a second time.
- **The cloud** keeps its random numbers while the scene is moved, so that a drag costs the formula alone. Painting costs ten times the flying, so the page lets a worker paint, at half the picture's pixels where there is none.
- **The map's picture** has each pixel's place on the grid worked out once for a size; after that it is four values, an interpolation and a table of colours.
- **The exact multiple** was solved by scanning (0.3 ms a wind, seconds a map); it has a closed form. **Intercepts and laps** stay single flights, and come coarse first.
- **The page** fetched everything at once. Modes, views and half of the core come when they are asked for, in bundles; the core is cut in two by Binaryen's wasm-split. The browser's trace showed the first picture waiting for the style sheets of all views and for the layout of all fields: the sheet of the column beside the picture now stands after the picture, which is shown without it. The core and the painter shared the line: the painter now comes after the core, whose picture a hand can act on as SVG. What is left before the first picture is two frames of the browser, the letters' first layout and, on a fast line, the processor: parsing text and scripts, and painting without a graphics card.

## What is weighed

- Every script and module that the page fetches by itself from its opening until it rests in Explore, brotli at quality 11: ${scripts.length} files, of which core.wasm ${kb(weight(join(site, 'core.wasm')))}, view.wasm ${kb(weight(join(site, 'view.wasm')))}, view.mjs ${kb(weight(join(site, 'view.mjs')))}. The page's text, style sheet and fonts are not counted: ${beside.map(({ name, packed: bytes }) => `${name} ${kb(bytes)}`).join(', ')}. Nor is the worker that keeps the page for later; it fetches everything.
- What comes when it is asked for, once: ${parts.map(({ name, bytes }) => `${name} ${kb(bytes)}`).join(', ')}. All of it would make ${times((page + later.reduce((sum, { bytes }) => sum + bytes, 0)) / bare)} of the bare page.
- The bare page is \`tests/bench/bare_page.cpp\`, one window with a text, a button, a slider, a circle and a line, built in the same run for size (-Oz, link-time optimisation): with SDL2's software drawing left in, as it is without special switches, and without (lean), as this page has it.

## How the page is opened

- In Chromium ${opened.chromium} without a graphics card (SwiftShader draws both pages' WebGL), with an empty cache, over HTTP/1.1 with brotli, our page and the bare one in turns, ${opened.rounds} rounds; the ratios are of the medians. The bare page asks for its two files at once. The slow line is Chromium's own, ${opened.slow.mbit_s} Mbit/s and ${opened.slow.latency_ms} ms to each answer: a school's Wi-Fi that a class shares.
- The **first picture** is on the screen when the frame after the one that has it begins: ours comes as SVG with the page's text, the bare page has none before its canvas. The **first frame that a hand can act on** is, of ours, the one after the fields are enabled and handles can be dragged on the SVG (tests/browser/first-paint.test.mjs drags one before there is a canvas); of the bare page the first one on its canvas.
- Memory is looked at after a garbage collection: after ten turns of the wind's handle with a flight each, and after ${opened.soak.turns} of them.
`;
writeFileSync(output, text);
const columns = rows.map(([what = '', value = '', aim = '', measured = '']) =>
  `${value.padStart(8)}  ${aim.padEnd(7)} ${what}: ${measured}`);
process.stdout.write(`${columns.join('\n')}\n`);
