// Puts the module for other pages together: core.mjs, core.wasm, the types and the examples, a
// folder to copy as it is.
import { copyFileSync, cpSync, mkdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));

/** @param {string} site The finished page. @param {string} folder */
export function writeModule(site, folder) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const name of ['core.mjs', 'wasm.mjs', 'core.wasm']) copyFileSync(join(site, name), join(folder, name));
  copyFileSync(join(here, 'core.d.mts'), join(folder, 'core.d.mts'));
  cpSync(join(here, 'examples'), join(folder, 'examples'), { recursive: true });
}
