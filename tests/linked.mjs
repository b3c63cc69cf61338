// What the linker takes into each module of the page, by its own trace, is what
// web/third-party.json names, no more and no less.
//   node tests/linked.mjs BUILD     a tree of the page (build/wasm), built
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const [, , tree] = process.argv;
if (!tree) {
  console.error('usage: node tests/linked.mjs BUILD');
  process.exit(2);
}

/** What is linked, by the name of the module as the page has it. */
const MODULES = { 'core.wasm': 'core.wasm', 'study.wasm': 'study.wasm', 'study-simd.wasm': 'study-simd.wasm', 'view.mjs': 'view.wasm' };
const OWN = ['libcore', 'libsession'];
/** Parts of SDL2 that others wrote, under licences of their own: its copy of fdlibm, and one of colours. */
const OTHERS_IN_SDL2 = /^libsdl2\.a\((?:[eks]_\w+|yuv\w*)\./;

/** @type {{components: import('../web/build-notices.mjs').Component[]}} */
const { components } = JSON.parse(readFileSync(fileURLToPath(new URL('../web/third-party.json', import.meta.url)), 'utf8'));
const scratch = mkdtempSync(join(tmpdir(), 'linked-'));

/**
 * The objects that the linker takes, as `archive(object)` or `object`, without folders.
 * @param {string} target
 */
function traced(target) {
  const command = execFileSync('ninja', ['-C', tree, '-t', 'commands', target], { encoding: 'utf8', maxBuffer: 1 << 26 }).trim().split('\n').at(-1) ?? '';
  assert.ok(command.includes(` -o ${target} `), `the last command of ${target} links it`);
  // How well it is made of them does not matter, and takes long.
  const again = command.replace(/ -O[sz23](?= )/g, ' -O1').replace(` -o ${target} `, ` -o '${join(scratch, target)}' -Wl,--trace `);
  return execFileSync('bash', ['-c', again], { cwd: resolve(tree), encoding: 'utf8', maxBuffer: 1 << 26, stdio: ['ignore', 'pipe', 'ignore'] })
    .trim().split('\n').map((line) => basename(line));
}

try {
  for (const [target, module] of Object.entries(MODULES)) {
    const taken = traced(target);
    const archives = new Set(taken.filter((one) => !one.endsWith('.cpp.o')).map((one) => one.replace(/\.(?:a\(.*\)|o)$/, '')));
    for (const own of OWN) archives.delete(own);
    const named = new Set(components.filter((one) => one.in.includes(module)).flatMap((one) => one.archives ?? []));
    // One list serves all modules: the start of a module stands in those without JavaScript alone.
    const expected = [...named].filter((name) => module !== 'view.wasm' || !/^(?:libstandalonewasm|crt1_)/.test(name));
    assert.deepEqual([...archives].sort(), expected.sort(), `${module} is linked from what web/third-party.json names`);
    const others = taken.filter((one) => OTHERS_IN_SDL2.test(one));
    assert.deepEqual(others, [], `${module} has nothing of SDL2 that is under another licence`);
    console.log(`${module}: ${taken.length} objects, of others from ${[...archives].sort().join(', ')}`);
  }
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
