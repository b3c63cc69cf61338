// The native tests' answers against those of the page's module, number by number.
//   HOLD_RESULTS=results.json HOLD_PICTURES=pictures.json core_tests "[results]"
//   node tests/compare-results.mjs results.json build/site/core.mjs pictures.json
// Closed-form numbers must agree to 1e-12 of their scale, solved ones to 1e-9; all
// words, names and yes-or-no answers must be the same, and of the pictures every byte.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { picturesOf } from './same-pictures.mjs';

const CLOSED = 1e-12;
const SOLVED = 1e-9;

/** @typedef {any} Json a value out of JSON.parse */
/** @typedef {{ worst: number, where: string, count: number }} Worst */

const worst = {
  /** @type {Worst} */ closed: { worst: 0, where: '', count: 0 },
  /** @type {Worst} */ solved: { worst: 0, where: '', count: 0 },
};
/** @type {string[]} */
const faults = [];

/**
 * Whether a number follows from a root that was searched for: the exact plans, the wind of
 * what was seen, and the flight after its first roll-out, whose intercept angle may be solved.
 * @param {string} path
 * @param {number} firstSolvedEvent
 */
function solved(path, firstSolvedEvent) {
  if (path.startsWith('/exact/') || path.startsWith('/laps/')) return true;
  // The wind that was flown in is searched for too.
  if (path.startsWith('/plans/') || path.startsWith('/inferred/')) return true;
  const event = /^\/events\/(\d+)\//.exec(path);
  return event !== null && Number(event[1]) >= firstSolvedEvent;
}

/**
 * Largest magnitude of each unit in an answer: what a small number is measured by.
 * @param {Json} value
 * @param {string} key
 * @param {Map<string, number>} scales
 */
function findScales(value, key, scales) {
  if (typeof value === 'number') {
    const unit = unitOf(key);
    scales.set(unit, Math.max(scales.get(unit) ?? (unit === 'deg' ? 360 : 1), Math.abs(value)));
  } else if (Array.isArray(value)) {
    for (const item of value) findScales(item, key, scales);
  } else if (value !== null && typeof value === 'object') {
    for (const [name, item] of Object.entries(value)) findScales(item, name, scales);
  }
}

/** @param {string} key */
function unitOf(key) {
  return /_(nm|deg|kt|s)$/.exec(key)?.[1] ?? 'number';
}

/**
 * @param {Json} a native
 * @param {Json} b module
 * @param {string} path
 * @param {{ link: string, scales: Map<string, number>, firstSolvedEvent: number }} context
 */
function compare(a, b, path, context) {
  const fault = () => {
    faults.push(`${path}: ${JSON.stringify(a)} / ${JSON.stringify(b)} in "${context.link}"`);
  };
  if (typeof a === 'number' && typeof b === 'number') {
    const unit = unitOf(path);
    let miss = Math.abs(a - b);
    if (unit === 'deg') miss = Math.min(miss, Math.abs(360 - miss));
    const relative = miss / (context.scales.get(unit) ?? 1);
    const isSolved = solved(path, context.firstSolvedEvent);
    const record = isSolved ? worst.solved : worst.closed;
    ++record.count;
    if (relative > record.worst) {
      record.worst = relative;
      record.where = `${path} in "${context.link}"`;
    }
    if (!(relative <= (isSolved ? SOLVED : CLOSED))) fault();
    return;
  }
  if (a === null || b === null || typeof a !== 'object' || typeof b !== 'object') {
    if (a !== b) fault();
    return;
  }
  const keysA = Object.keys(a);
  const keysB = Object.keys(b);
  if (Array.isArray(a) !== Array.isArray(b) || keysA.join('\n') !== keysB.join('\n')) {
    fault();
    return;
  }
  const childrenA = /** @type {{[key: string]: Json}} */ (a);
  const childrenB = /** @type {{[key: string]: Json}} */ (b);
  for (const key of keysA) compare(childrenA[key], childrenB[key], `${path}/${key}`, context);
}

const [, , resultsPath, modulePath, picturesPath] = process.argv;
if (!resultsPath || !modulePath || !picturesPath) {
  console.error('usage: node tests/compare-results.mjs RESULTS.json CORE.mjs PICTURES.json');
  process.exit(2);
}
/** @type {{ link: string, answer: {[key: string]: Json} }[]} */
const results = JSON.parse(readFileSync(resultsPath, 'utf8'));
const { load } = await import(pathToFileURL(resolve(modulePath)).href);
const core = await load();
/** @type {{ link: string, layers: string, svg: string, answer: {[key: string]: Json} }[]} */
const pictures = JSON.parse(readFileSync(picturesPath, 'utf8'));
for (const { link, answer } of [...results, ...pictures]) {
  const scales = new Map();
  findScales(answer, '', scales);
  const events = /** @type {{ name: string }[]} */ (answer.events);
  const firstRollOut = events.findIndex((event) => event.name === 'roll-out');
  const firstSolvedEvent = firstRollOut < 0 ? events.length : firstRollOut + 1;
  compare(answer, core.evaluate(link), '', { link, scales, firstSolvedEvent });
}

for (const [i, svg] of picturesOf(core, pictures).entries()) {
  const { svg: native, link } = pictures[i];
  if (svg === native) continue;
  const at = [...svg].findIndex((letter, n) => letter !== native[n]);
  faults.push(`picture: "${native.slice(at - 30, at + 30)}" / "${svg.slice(at - 30, at + 30)}" in "${link}"`);
}

for (const [kind, limit] of /** @type {['closed' | 'solved', number][]} */ ([
  ['closed', CLOSED],
  ['solved', SOLVED],
])) {
  const { worst: largest, where, count } = worst[kind];
  console.log(`${kind}: ${count} numbers, worst ${largest.toExponential(1)} of ${limit} (${where})`);
}
for (const line of faults.slice(0, 10)) console.error(line);
const enough = results.length === 200 && pictures.length >= 50 && worst.closed.count > 10000 && worst.solved.count > 10000;
if (!enough) console.error('too few numbers were compared');
const failed = faults.length > 0 || !enough;
console.log(failed ? `${faults.length} differ` : `${results.length + pictures.length} answers and ${pictures.length} pictures agree`);
process.exit(failed ? 1 : 0);
