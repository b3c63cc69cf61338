// The page's core with every load and store checked (core_checked_wasm of web/cmake/wasm.cmake),
// asked for what the native tests wrote down, and led through a session.
//   node tests/checked-core.mjs RESULTS.json CORE.mjs CHECKED.wasm
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const [, , resultsPath, modulePath, wasmPath] = process.argv;
if (!resultsPath || !modulePath || !wasmPath) {
  console.error('usage: node tests/checked-core.mjs RESULTS.json CORE.mjs CHECKED.wasm');
  process.exit(2);
}

// The checks call out where memory is used wrongly; core.mjs would answer such calls with 0.
const CALLS = ['segfault', 'alignfault', 'abort'];
let checks = 0;
const instantiate = WebAssembly.instantiate.bind(WebAssembly);
WebAssembly.instantiate = /** @type {any} */ (
  /** @param {WebAssembly.Module} module @param {any} imports */
  async (module, imports) => {
    for (const { module: space, name } of WebAssembly.Module.imports(module)) {
      if (!CALLS.includes(name)) continue;
      checks += 1;
      imports[space][name] = () => { throw new Error(`${name}: memory is used wrongly`); };
    }
    const made = await instantiate(module, imports);
    // The stack is checked as well, within limits that Emscripten's own script would set.
    const wasm = /** @type {Record<string, (...numbers: number[]) => number>} */ (/** @type {unknown} */ (made.exports));
    wasm.emscripten_stack_init();
    wasm.__set_stack_limits(wasm.emscripten_stack_get_base(), wasm.emscripten_stack_get_end());
    return made;
  });

/** @type {{ link: string }[]} */
const results = JSON.parse(readFileSync(resultsPath, 'utf8'));
/** @type {typeof import('../web/core.d.mts')} */
const { load } = await import(pathToFileURL(resolve(modulePath)).href);
const core = await load({ wasm: readFileSync(wasmPath) });
if (checks === 0) throw new Error('this module checks nothing');

const links = results.map(({ link }) => link);
for (const link of links) {
  core.evaluate(link);
  core.svg(link, { width: 640, height: 480 });
}
const session = core.session();
session.resize(800, 500);
for (const link of links.slice(0, 40)) {
  session.open(link);
  session.set('wind', '210/30', false);
  session.pointer(0, 1, 400, 250, false);
  session.pointer(1, 1, 440, 210, false);
  session.pointer(2, 1, 440, 210, false);
  session.seek(60);
  session.undo();
  session.report();
  session.svg();
}
console.log(`${links.length} links with their pictures, 40 sessions: no load or store outside memory`);
