// Fills the manifest and the service worker of an assembled page: its words, the exact list of
// its files, and a name that is a hash of them all.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The page itself is asked for by its folder. */
const PAGE = 'index.html';
const WORKER = 'service-worker.js';

/** @param {string} folder @returns {string[]} Every file in it, relative to it, sorted. */
const filesOf = (folder) => readdirSync(folder, { withFileTypes: true }).flatMap((entry) => (entry.isDirectory()
  ? filesOf(join(folder, entry.name)).map((name) => `${entry.name}/${name}`) : [entry.name])).sort();

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
