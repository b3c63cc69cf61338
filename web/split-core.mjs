// Cuts the core in two: core.wasm has what the page's first view runs, core-more.wasm the rest,
// which comes when it is asked for. Both are one program in one memory; the second fills the
// first's gaps when it is instantiated. Nothing is left to chance: of all that can be reached from
// the first part's exports, calls by address included, only the functions that core/apart.h marks
// are cut off, and core.mjs and the core call those only when the second part is there.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SECTION, addData, exportsOnly, moduleOf, nameless, sectionsOf, segmentsOf } from './wasm-file.mjs';
import { wordRecords } from './words.mjs';

/** Exports that wait for the second part: the tutor, texts that are read, flying by hand, the needles. */
const LATER = /^(?:tutor_|clearance_text$|wind_report_text$|report_kinds_text$|session_fly_|session_needle$)/;
/** Functions that core/apart.h marks are exports by their C++ names; nobody calls them so. */
const APART = /^_Z/;
/** What Emscripten exports and core.mjs has no use for. */
const UNUSED = /^(?:__errno_location|stack(?:Save|Restore|Alloc))$/;
/** Where the first part looks for what it lacks; web/core.mjs knows both names. */
const SPACES = { first: 'first', lacking: 'lacking' };

// --- what the first part needs ----------------------------------------------------------

/**
 * Functions that are reached from the exports of the first part, named as in WebAssembly's text.
 * @param {string} text The module as text.
 */
function reached(text) {
  /** @typedef {{type: string, calls: Set<string>, types: Set<string>}} Body */
  /** @type {Map<string, Body>} */
  const functions = new Map();
  /** @type {Map<string, string>} */
  const types = new Map();
  /** @type {Map<string, string>} */
  const exported = new Map();
  /** Whose address is taken. @type {string[]} */
  const addressed = [];
  /** @param {string} line */
  const shape = (line) => [/\(param/.test(line) ? [...line.matchAll(/\(param ([^)]*)\)/g)].flatMap(([, all]) => all.split(' ').filter((word) => !word.startsWith('$'))) : [],
    /\(result ([^)]*)\)/.exec(line)?.[1] ?? ''].join('>');
  /** @type {Body | null} */
  let body = null;
  for (const line of text.split('\n')) {
    const top = /^ \((\w+) /.exec(line)?.[1];
    if (top) body = null;
    if (top === 'func') {
      body = { type: shape(line), calls: new Set(), types: new Set() };
      functions.set(/** @type {RegExpExecArray} */ (/\$[^\s)]+/.exec(line))[0], body);
    } else if (top === 'type') {
      types.set(/** @type {RegExpExecArray} */ (/\$[^\s)]+/.exec(line))[0], shape(line));
    } else if (top === 'export') {
      const [, name, fn] = /"([^"]*)" \(func (\$[^\s)]+)\)/.exec(line) ?? [];
      if (name) exported.set(name, fn);
    } else if (top === 'elem') {
      addressed.push(...(line.replace(/^ \(elem (?:\$\S+ )?\([^)]*\)/, '').match(/\$[^\s)]+/g) ?? []));
    } else if (body) {
      const [, called] = /\((?:return_)?call (\$[^\s)]+)/.exec(line) ?? [];
      if (called) body.calls.add(called);
      const [, type] = /\((?:return_)?call_indirect .*?\(type (\$[^\s)]+)\)/.exec(line) ?? [];
      if (type) body.types.add(types.get(type) ?? '');
      else if (/call_indirect/.test(line)) throw new Error(`a call by address without its type: ${line}`);
    }
  }
  const cut = new Set([...exported].filter(([name]) => LATER.test(name) || APART.test(name)).map(([, fn]) => fn));
  if (cut.size < 30 || addressed.length === 0) throw new Error('the core cannot be cut: its text is not as expected');
  /** @type {Set<string>} */
  const seen = new Set();
  /** @type {Set<string>} */
  const by_address = new Set();
  /** @param {string[]} from */
  function follow(from) {
    const todo = [...from];
    for (let fn = todo.pop(); fn !== undefined; fn = todo.pop()) {
      const at = functions.get(fn);
      if (!at || seen.has(fn) || cut.has(fn)) continue;
      seen.add(fn);
      todo.push(...at.calls);
      for (const type of at.types) by_address.add(type);
    }
  }
  follow([...exported.values()]);
  for (let before = -1; before !== seen.size;) {
    before = seen.size;
    follow(addressed.filter((fn) => by_address.has(functions.get(fn)?.type ?? '')));
  }
  return [...seen].map((fn) => fn.slice(1));
}

// --- the words --------------------------------------------------------------------------

/**
 * Moves a run of constants from one module's data to the other's; where it stood there are zeros.
 * @param {import('./wasm-file.mjs').Section[]} from @param {import('./wasm-file.mjs').Section[]} to @param {Buffer} run
 */
function moveData(from, to, run) {
  const [place, ...others] = segmentsOf(from).filter(({ bytes }) => bytes.includes(run));
  if (!place || others.length) throw new Error('the words of the second part do not stand in the core once');
  const at = place.bytes.indexOf(run);
  addData(to, [{ address: place.address + at, bytes: Buffer.from(run) }]);
  place.bytes.fill(0, at, at + run.length);
}

/**
 * @param {string} file The core as it was linked, with the names of its functions.
 * @param {string} words The catalogue it was linked with.
 * @returns {{first: Buffer, more: Buffer, whole: Buffer}} `whole`: uncut, for who wants one file.
 */
export function splitCore(file, words) {
  const folder = mkdtempSync(join(tmpdir(), 'core-'));
  /** @param {string} name */
  const made = (name) => join(folder, name);
  try {
    const linked = sectionsOf(readFileSync(file)).map(({ id, body }) => (
      { id, body: id === SECTION.export ? exportsOnly(body, (name) => !UNUSED.test(name)) : body }));
    const text = execFileSync('wasm-dis', [file], { encoding: 'utf8', maxBuffer: 1 << 28 });
    writeFileSync(made('keep.txt'), `${reached(text).join('\n')}\n`);
    const whole = linked.map(({ id, body }) => ({ id, body: id === SECTION.export ? exportsOnly(body, (name) => !APART.test(name)) : body }));
    writeFileSync(made('whole.wasm'), moduleOf(whole));
    execFileSync('wasm-split', [made('whole.wasm'), `--keep-funcs=@${made('keep.txt')}`, '--enable-mutable-globals',
      `--import-namespace=${SPACES.first}`, `--placeholder-namespace=${SPACES.lacking}`,
      '-o1', made('first.wasm'), '-o2', made('more.wasm')], { encoding: 'utf8', stdio: 'pipe' });
    const first = nameless(sectionsOf(readFileSync(made('first.wasm'))));
    const more = nameless(sectionsOf(readFileSync(made('more.wasm'))));
    moveData(first, more, Buffer.from(wordRecords(words).more.join('')));
    return { first: moduleOf(first), more: moduleOf(more), whole: moduleOf(nameless(whole)) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
