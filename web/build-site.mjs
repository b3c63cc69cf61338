// Assembles the page from shell/, assets/ and the two modules, in a folder of its own that
// takes the old page's place when it is whole. Any missing piece stops it.
//   node web/build-site.mjs --wasm BUILD_TREE --site FOLDER --esbuild PROGRAM
import { execFileSync } from 'node:child_process';
import {
  copyFileSync, cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync,
} from 'node:fs';
import { basename, dirname, extname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

const project = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const { values: options } = parseArgs({
  options: { wasm: { type: 'string' }, site: { type: 'string' }, esbuild: { type: 'string' } },
});
const { wasm, site, esbuild } = options;
if (!wasm || !site || !esbuild) throw new Error('--wasm, --site and --esbuild are all needed');

/** Parts of shell/ and assets/ that the build itself uses and the page does not. */
const BUILD_ONLY = new Set(['prerender.mjs', 'index.html', 'words']);
const PAGE_TYPES = new Set([
  '.css', '.html', '.ico', '.js', '.json', '.mjs', '.png', '.svg', '.txt', '.webmanifest', '.woff2', '.xml', '.xsd',
]);

/**
 * Copies what the page uses of a folder, with its subfolders.
 * @param {string} from @param {string} to
 */
function copyPageFiles(from, to) {
  cpSync(from, to, {
    recursive: true,
    filter: (file) => !BUILD_ONLY.has(basename(file))
      && !basename(file).startsWith('.')
      && (extname(file) === '' || PAGE_TYPES.has(extname(file))),
  });
}

/**
 * The page with the default scene in it. Node takes .js files for modules only under a
 * package.json that says so, hence the two files that come and go here.
 * @param {string} stage @param {Record<string, string>} words
 */
async function fillPage(stage, words) {
  const marker = join(stage, 'package.json');
  const program = join(stage, 'prerender.mjs');
  writeFileSync(marker, '{"type": "module"}\n');
  copyFileSync(join(project, 'shell/prerender.mjs'), program);
  const { load } = await import(pathToFileURL(join(stage, 'core.mjs')).href);
  const core = await load({ wasm: readFileSync(join(stage, 'core.wasm')) });
  const { prerender } = await import(pathToFileURL(program).href);
  const page = prerender(readFileSync(join(project, 'shell/index.html'), 'utf8'), words, core);
  rmSync(marker);
  rmSync(program);
  return { page, themeCss: core.themeCss() };
}

/**
 * Throws where the page names a file of its own that is not there.
 * @param {string} page @param {string} stage
 */
function checkReferences(page, stage) {
  for (const [, target] of page.matchAll(/\b(?:href|src)="([^"#?]+)/g)) {
    if (/^[a-z]+:/i.test(target)) continue;
    const file = target.endsWith('/') ? `${target}index.html` : target;
    if (!existsSync(join(stage, file))) throw new Error(`index.html names ${target}, which the page does not have`);
  }
}

const stage = `${resolve(site)}.new`;
const old = `${resolve(site)}.old`;
for (const folder of [stage, old]) rmSync(folder, { recursive: true, force: true });
mkdirSync(stage, { recursive: true });

copyPageFiles(join(project, 'shell'), stage);
copyPageFiles(join(project, 'assets'), stage);
copyFileSync(join(project, 'web/core.mjs'), join(stage, 'core.mjs'));
for (const file of ['core.wasm', 'view.wasm']) copyFileSync(join(wasm, file), join(stage, file));
// emcc leaves its names long; its own shortener wants a Java or npm package.
execFileSync(esbuild, ['--minify', '--format=esm', '--log-level=warning', join(wasm, 'view.mjs'),
  `--outfile=${join(stage, 'view.mjs')}`], { stdio: 'inherit' });

/** @type {Record<string, string>} */
const words = JSON.parse(readFileSync(join(project, 'assets/words/en.json'), 'utf8'));
writeFileSync(join(stage, 'words.js'), `export default ${JSON.stringify(words, null, 1)};\n`);

const { page, themeCss } = await fillPage(stage, words);
writeFileSync(join(stage, 'theme.css'), themeCss);
checkReferences(page, stage);
for (const folder of readdirSync(stage, { withFileTypes: true })) {
  if (folder.isDirectory() && readdirSync(join(stage, folder.name)).length === 0) rmSync(join(stage, folder.name), { recursive: true });
}
writeFileSync(join(stage, 'index.html'), page); // last: the build takes its time for the page's own

if (existsSync(site)) renameSync(site, old);
renameSync(stage, site);
rmSync(old, { recursive: true, force: true });
