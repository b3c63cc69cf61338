// Turns one run's measurements into a table of ratios.
//   node tests/bench/report.mjs RESULTS BUILD OUTPUT.md
import { execFileSync } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';

const [, , results = '', build = '', output = ''] = process.argv;

/** @param {string} name @returns {Record<string, number>} */
const measured = (name) => Object.fromEntries(
  readFileSync(join(results, name), 'utf8').trim().split('\n')
    .map((line) => { const [key = '', value] = line.split(' '); return [key, Number(value)]; }));

/** @param {string} file */
const packed = (file) => brotliCompressSync(readFileSync(file), {
  params: { [constants.BROTLI_PARAM_QUALITY]: 11 },
}).length;
/** @param {string[]} files */
const weight = (files) => files.reduce((sum, file) => sum + packed(file), 0);

const site = join(build, 'site');
const scripts = readdirSync(site).filter((name) => /\.(m?js|wasm)$/.test(name));
const wasm_folder = join(build, 'wasm');
const page = weight(scripts.map((name) => join(site, name)));
const bare = weight(['bare.mjs', 'bare.wasm'].map((name) => join(wasm_folder, name)));
const lean = weight(['bare_lean.mjs', 'bare_lean.wasm'].map((name) => join(wasm_folder, name)));

const native = measured('native.txt');
const wasm = measured('wasm.txt');
/** @param {string} command @param {string[]} [args] */
const version = (command, args = ['--version']) => {
  try {
    return (execFileSync(command, args, { encoding: 'utf8' }).split('\n')[0] ?? '').trim();
  } catch {
    return command;
  }
};
const num = (/** @type {number | undefined} */ v) => v ?? NaN;
const ratio = (/** @type {number} */ r) => `${r.toPrecision(r < 10 ? 2 : 3)}×`;
const bytes = (/** @type {number} */ n) => `${(n / 1000).toFixed(1)} kB`;

const rows = [
  ['one flight (entry, two laps, roll-outs), Boost.odeint against ours, native',
    ratio(num(native.odeint) / num(native.flight)), '≥ 25×',
    `${num(native.odeint).toFixed(0)} against ${num(native.flight).toFixed(0)} ns`],
  ['the same against the bare cost of its trigonometric calls, native',
    ratio(num(native.flight) / num(native.trig)), '(≤ 1.5× later)',
    `${num(native.flight).toFixed(0)} against ${num(native.trig).toFixed(0)} ns; ${num(native.sincos).toFixed(1)} sine-cosine pairs and ${num(native.sin).toFixed(1)} sines a flight`],
  ['one flight, WebAssembly against native',
    ratio(num(wasm.flight) / num(native.flight)), '≤ 1.8×',
    `${num(wasm.flight).toFixed(0)} against ${num(native.flight).toFixed(0)} ns`],
  ['from the scenario (airspeed, triangles and sector too), WebAssembly against native',
    ratio(num(wasm.whole) / num(native.whole)), '',
    `${num(wasm.whole).toFixed(0)} against ${num(native.whole).toFixed(0)} ns`],
  ['page weight against the bare SDL2 + Dear ImGui page', ratio(page / bare), '≤ 1.2×',
    `${bytes(page)} against ${bytes(bare)}, brotli`],
  ['page weight against the same with the lean SDL2', ratio(page / lean), '',
    `${bytes(page)} against ${bytes(lean)}, brotli`],
];

const machine = `${cpus()[0]?.model ?? 'unknown processor'}, ${cpus().length} cores`;
const emcc = version('emcc');
const text = `# Measured

Ratios of one run; the absolute numbers beside them are this machine's. Repeat with \`./tests/bench/run.sh\`, which writes this file.

${new Date().toISOString().slice(0, 10)}; ${machine}; ${version('c++')}; ${emcc}; Node.js ${process.versions.node}.

| what | ratio | aim | measured |
| --- | --- | --- | --- |
${rows.map((row) => `| ${row.join(' | ')} |`).join('\n')}

- A flight is timed from a ready set-up, 64 varied scenarios in turn (\`tests/bench/flights.h\`), median of many interleaved batches. ${num(native.pieces).toFixed(1)} closed-form pieces a flight on average.
- The integrator (Dormand–Prince 5, absolute and relative error 1e-9 a step) only integrates x and y over the same pieces; the turns' times and headings are given to it, so it does less than the flight. Its ends differ from the closed form by at most ${num(native.difference_nm).toExponential(1)} NM.
- The page's weight is every script and module in \`build/site\` (${scripts.length} files: ${bytes(packed(join(site, 'core.wasm')))} core.wasm, ${bytes(packed(join(site, 'view.wasm')))} view.wasm, ${bytes(packed(join(site, 'view.mjs')))} view.mjs, the rest ours). The bare page is one window with a text, a button, a slider, a circle and a line (\`tests/bench/bare_page.cpp\`), built in the same run: with SDL2's usual parts, and with the lean list.
`;
writeFileSync(output, text);
process.stdout.write(rows.map((row) => `${row[1]?.padStart(8)}  ${row[0]}  [${row[3]}]`).join('\n') + '\n');
