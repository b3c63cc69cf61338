// Puts the module for other pages together: core.mjs, core.wasm in one piece, the types and the
// examples, with the notices of what is linked in: a folder to copy as it is.
import { copyFileSync, cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { noticesText } from './build-notices.mjs';

const here = dirname(fileURLToPath(import.meta.url));

/** @param {string} site The finished page. @param {Uint8Array} wasm The core, uncut. @param {string} folder @param {import('./build-notices.mjs').Found[]} components */
export function writeModule(site, wasm, folder, components) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  copyFileSync(join(site, 'core.mjs'), join(folder, 'core.mjs'));
  writeFileSync(join(folder, 'core.wasm'), wasm);
  copyFileSync(join(here, 'core.d.mts'), join(folder, 'core.d.mts'));
  const linked = components.filter((component) => component.in.includes('core.wasm'));
  writeFileSync(join(folder, 'notices.txt'), noticesText(linked, 'The module core.wasm of the page "Holding entries in the wind" has'));
  cpSync(join(here, 'examples'), join(folder, 'examples'), { recursive: true });
}
