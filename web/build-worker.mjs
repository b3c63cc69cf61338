// Fills the manifest and the service worker of an assembled page: its words, the exact list of
// its files, and a name that is a hash of them all.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';

/** The page itself is asked for by its folder. */
const PAGE = 'index.html';
const WORKER = 'service-worker.js';

/** Every file of a folder and below, its name from the folder on, in an order that is the same everywhere. @param {string} folder */
export const filesOf = (folder) => readdirSync(folder, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).replaceAll('\\', '/'))
  .sort();

/** @param {string} site @param {(key: string) => string} say */
export function fillManifest(site, say) {
  const file = join(site, 'manifest.webmanifest');
  const manifest = JSON.parse(readFileSync(file, 'utf8'), (_, value) => (typeof value === 'string'
    ? value.replace(/\{\{word:([\w.-]+)\}\}/g, (__, key) => say(key)) : value));
  writeFileSync(file, `${JSON.stringify(manifest, null, 1)}\n`);
}

/** Last, since it names what is there. @param {string} site */
export function fillWorker(site) {
  const names = filesOf(site).filter((name) => name !== WORKER);
  const hash = createHash('sha256');
  const worker = readFileSync(join(site, WORKER), 'utf8');
  hash.update(worker);
  for (const name of names) {
    const bytes = readFileSync(join(site, name));
    hash.update(`\n${name} ${bytes.length}\n`).update(bytes);
  }
  const files = names.map((name) => (name === PAGE ? './' : name));
  const filled = worker.replace("'{{build}}'", `'${hash.digest('hex').slice(0, 16)}'`)
    .replace("['{{files}}']", JSON.stringify(files, null, 1));
  if (/\{\{(build|files)\}\}/.test(filled) || !files.includes('./')) throw new Error(`${WORKER} could not be filled in`);
  writeFileSync(join(site, WORKER), filled);
}
