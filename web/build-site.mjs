// Assembles the page from shell/, assets/ and the two modules, in a folder of its own that
// takes the old page's place when it is whole. Any missing piece stops it. Brings
// docs/sources.md and docs/third-party.md up to date with the page's lists, and leaves the single file
// lesson-offline.html, the course package and the module for others beside that folder.
// Beside another catalogue than English's, --core names the core that was linked with it.
//   node web/build-site.mjs --wasm BUILD_TREE --site FOLDER --esbuild PROGRAM --qrcode FILE
//     --sources FOLDER --emscripten FOLDER [--catalogue FILE --core FILE]
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync, cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync,
} from 'node:fs';
import { basename, dirname, extname, join, normalize, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { writeOfflinePage } from './build-offline.mjs';
import { writeContents } from './build-contents.mjs';
import { writeModule } from './build-module.mjs';
import { componentsOf, noticesText, withTable } from './build-notices.mjs';
import { packageOf } from './build-package.mjs';
import { bundleScripts, bundleStyles } from './build-scripts.mjs';
import { filesOf, fillManifest, fillWorker } from './build-worker.mjs';
import { ENGLISH, catalogue, counted, lessonFile, missing, sayer } from './catalogue.mjs';
import { leanView } from './lean-view.mjs';
import { splitCore } from './split-core.mjs';
import { findingMarkdown, findingOf } from './finding.mjs';
import { COLUMNS, countsOf, markdown, sectionsOf, tablesOf, totalOf, writeIfChanged } from './sources.mjs';

const project = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const { values: options } = parseArgs({
  options: {
    wasm: { type: 'string' }, site: { type: 'string' }, esbuild: { type: 'string' }, qrcode: { type: 'string' },
    sources: { type: 'string' }, emscripten: { type: 'string' },
    catalogue: { type: 'string', default: ENGLISH }, core: { type: 'string' },
  },
});
const { wasm, site, esbuild, qrcode, sources, emscripten } = options;
const words = catalogue(options.catalogue);
const english = words['page.lang'] === 'en';
if (!wasm || !site || !esbuild || !qrcode || !sources || !emscripten) throw new Error('--wasm, --site, --esbuild, --qrcode, --sources and --emscripten are all needed');

/** Parts of shell/ and assets/ that the build itself uses and the page does not. */
const BUILD_ONLY = new Set(['prerender.mjs', 'index.html', 'sources-page.mjs', 'sources.html', 'words',
  'lesson', 'lesson-check.mjs', 'lesson-page.mjs', 'lesson.html', 'course.html', 'privacy.html', 'mode-teach.html', 'teach-embed.html', 'mode-lesson.html', 'mode-fly.html', 'mode-card.html', 'mode-winds.html', 'winds-choice.html', 'winds-choice-more.html', 'mode-practice.html', 'study.html', 'study-page.mjs']);
/** Modules of the page that make the course package here too. */
const PACKAGE_MAKER = ['course-package.js', 'course-manifest.js', 'zip.js', 'markup.js'];
/** Written last. */
const PAGES = new Set(['index.html', 'sources.html', 'lesson.html', 'study.html']);
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
 * Runs `work` with programs of shell/ beside the page's modules, which they import. Node takes
 * .js files for modules only under a package.json that says so, hence the files that come and
 * go here.
 * @template T
 * @param {string} stage @param {string[]} programs
 * @param {(load: (name: string) => Promise<any>) => Promise<T>} work
 */
async function beside(stage, programs, work) {
  const marker = join(stage, 'package.json');
  writeFileSync(marker, '{"type": "module"}\n');
  for (const name of programs) copyFileSync(join(project, 'shell', name), join(stage, name));
  const result = await work((name) => import(pathToFileURL(join(stage, name)).href));
  for (const file of [marker, ...programs.map((name) => join(stage, name))]) rmSync(file);
  return result;
}

/** @param {string} name */
const template = (name) => readFileSync(join(project, 'shell', name), 'utf8');

/**
 * A template with the parts that have files of their own: {{part:NAME}} is shell/NAME.html.
 * @param {string} name
 * @returns {string}
 */
const whole = (name) => template(name).replace(/\{\{part:([\w-]+)\}\}/g, (_, part) => whole(`${part}.html`).trimEnd());

/**
 * The page with the default scene in it, and those that stand by themselves. Throws where
 * the lesson is at fault.
 * @param {string} stage @param {Record<string, string>} words
 * @param {import('../shell/sources-page.mjs').Sources} sources
 * @param {import('../shell/lesson-steps.js').Lesson} lesson
 * @param {import('../shell/study-page.mjs').Finding} finding
 */
const fillPages = (stage, words, sources, lesson, finding) => beside(stage, ['prerender.mjs', 'sources-page.mjs', 'lesson-check.mjs', 'lesson-page.mjs', 'study-page.mjs'], async (program) => {
  const core = await (await program('core.mjs')).load();
  const { prerender } = await program('prerender.mjs');
  const { sourcesPage } = await program('sources-page.mjs');
  const { faultsOf } = await program('lesson-check.mjs');
  const { lessonPage } = await program('lesson-page.mjs');
  const { studyPage } = await program('study-page.mjs');
  const faults = faultsOf(lesson, core, sayer(words));
  if (faults.length) throw new Error(`the lesson is at fault:\n${faults.join('\n')}`);
  return {
    page: prerender(whole('index.html'), words, core),
    sourcesHtml: sourcesPage(template('sources.html'), sources, sayer(words)),
    lessonHtml: lessonPage(template('lesson.html'), lesson, core, sayer(words)),
    studyHtml: studyPage(whole('study.html'), finding, sayer(words)),
    themeCss: core.themeCss(),
  };
});

/**
 * Throws where a page names a file of its own, or a place in itself, that is not there.
 * @param {string} name @param {string} page @param {string} stage
 */
function checkReferences(name, page, stage) {
  for (const [, target, place] of page.matchAll(/\b(?:href|src)="([^"#?]*)(?:#([^"]*))?/g)) {
    if (/^[a-z]+:/i.test(target)) continue;
    const scene = place?.includes('='); // an address of the page, no place in it
    if (target === '' && place && !scene && !page.includes(` id="${place}"`)) throw new Error(`${name} names #${place}, which it does not have`);
    const file = target === '' || target.endsWith('/') ? `${target}index.html` : target;
    if (!PAGES.has(normalize(file)) && !existsSync(join(stage, file))) throw new Error(`${name} names ${target}, which the page does not have`);
  }
}

/**
 * A short name of what the site is: the same files give the same, whoever builds them. The
 * first figures of the SHA-256 of a list like that of sha256sum.
 * @param {string} folder @param {Record<string, string>} more Files that are written later.
 */
function buildOf(folder, more) {
  /** @param {string | Buffer} content */
  const hash = (content) => createHash('sha256').update(content).digest('hex');
  const lines = [...filesOf(folder).map((name) => [name, hash(readFileSync(join(folder, name)))]),
    ...Object.entries(more).map(([name, content]) => [name, hash(content)])]
    .sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, sum]) => `${sum}  ${name}\n`);
  return hash(lines.join('')).slice(0, 8);
}

const stage = `${resolve(site)}.new`;
const old = `${resolve(site)}.old`;
for (const folder of [stage, old]) rmSync(folder, { recursive: true, force: true });
mkdirSync(stage, { recursive: true });

copyPageFiles(join(project, 'shell'), stage);
copyPageFiles(join(project, 'assets'), stage);
for (const name of ['core.mjs', 'study.mjs', 'wasm.mjs']) copyFileSync(join(project, 'web', name), join(stage, name));
for (const name of ['study.wasm', 'study-simd.wasm']) copyFileSync(join(wasm, name), join(stage, name));
const core = splitCore(options.core ?? join(wasm, 'core.wasm'), options.catalogue);
writeFileSync(join(stage, 'core.wasm'), core.first);
writeFileSync(join(stage, 'core-more.wasm'), core.more);
writeFileSync(join(stage, 'view.wasm'), leanView(readFileSync(join(wasm, 'view.wasm'))));
// emcc leaves its names long; its own shortener wants a Java or npm package.
execFileSync(esbuild, ['--minify', '--format=esm', '--log-level=warning', join(wasm, 'view.mjs'),
  `--outfile=${join(stage, 'view.mjs')}`], { stdio: 'inherit' });

// A script of the old kind becomes a module. The notice at its head stays, here and in the
// single file: such a comment is kept.
const notice = /^(?:\/\/.*\n)+/.exec(readFileSync(qrcode, 'utf8'))?.[0];
if (!notice?.includes('MIT license')) throw new Error(`${qrcode} does not begin with its licence`);
execFileSync(esbuild, ['--bundle', '--minify', '--format=esm', '--log-level=warning', `--banner:js=/*!\n${notice.replace(/^\/\//gm, '')}*/`, qrcode,
  `--outfile=${join(stage, 'qrcode.mjs')}`], { stdio: 'inherit' });

const components = componentsOf({ sources, emscripten });
writeFileSync(join(stage, 'notices.txt'), noticesText(components, 'The page "Holding entries in the wind" has'));

const lacks = missing(options.catalogue);
if (lacks.length) console.log(`${options.catalogue} lacks ${lacks.length} texts, which stay English: ${lacks.slice(0, 5).join(', ')}${lacks.length > 5 ? ' ...' : ''}`);
// The core has its own words, and the pages that are read have theirs in them already.
const live = Object.fromEntries(Object.entries(words).filter(([key]) => /^page\.(?!sources\.|reading\.)/.test(key)));
writeFileSync(join(stage, 'words.js'), `export default ${JSON.stringify(live, null, 1)};\n`);

/** @type {import('../shell/lesson-steps.js').Lesson} */
const lesson = JSON.parse(readFileSync(lessonFile(options.catalogue), 'utf8'));
if (lesson.lang !== words['page.lang']) console.log(`there is no lesson in "${words['page.lang']}": it stays English`);
writeFileSync(join(stage, 'lesson-entry.js'), `export default ${JSON.stringify(lesson, null, 1)};\n`);

const say = sayer(words);
const tables = tablesOf(join(wasm, 'sources_list_wasm.js'));
/** @param {number} n */
const checks = (n) => counted(say, 'page.sources.checks', n);
/** @type {typeof import('./study.d.mts')} */
const { load: loadStudy } = await import(pathToFileURL(join(stage, 'study.mjs')).href);
const study = (await loadStudy()).rules();
const { page: filled, sourcesHtml, lessonHtml, studyHtml, themeCss } = await fillPages(stage, words, {
  total: totalOf(tables, say),
  marks: countsOf(tables, say).map(({ name, meaning, n }) => ({ name, meaning, count: checks(n) })),
  sections: sectionsOf(tables, say).map((section) => ({ ...section, count: checks(section.lines.length) })),
  columns: COLUMNS,
}, lesson, findingOf(study, say));
writeFileSync(join(stage, 'theme.css'), themeCss);
fillManifest(stage, say);
const begins = bundleScripts(stage, esbuild);
const CORE_LINK = '<link rel="modulepreload" href="core.mjs">\n';
if (!filled.includes(CORE_LINK)) throw new Error('index.html does not ask for core.mjs early');
// Else each script would be asked for by the one before it.
const page = bundleStyles(stage, filled, [sourcesHtml, lessonHtml, studyHtml], esbuild)
  .replace(CORE_LINK, (link) => link + begins.map((name) => `<link rel="modulepreload" href="${name}">\n`).join(''));
checkReferences('index.html', page, stage);
checkReferences('sources.html', sourcesHtml, stage);
checkReferences('lesson.html', lessonHtml, stage);
checkReferences('study.html', studyHtml, stage);
for (const folder of readdirSync(stage, { withFileTypes: true })) {
  if (folder.isDirectory() && readdirSync(join(stage, folder.name)).length === 0) rmSync(join(stage, folder.name), { recursive: true });
}
writeFileSync(join(stage, 'sources.html'), sourcesHtml);
writeFileSync(join(stage, 'lesson.html'), lessonHtml);
writeFileSync(join(stage, 'study.html'), studyHtml);
const build = buildOf(stage, { 'index.html': page });
writeFileSync(join(stage, 'build.js'), `export default '${build}';\n`);
writeFileSync(join(stage, 'index.html'), page); // last: the build takes its time for the page's own

// What a course package is made of, by the build and by the page.
const parts = filesOf(stage).filter((name) => name !== 'service-worker.js');
writeFileSync(join(stage, 'files.json'), `${JSON.stringify(parts, null, 1)}\n`);
fillWorker(stage);
writeContents(stage, components, say('page.title'), build); // of all that is there by now
writeFileSync(join(dirname(resolve(site)), 'lesson-scorm12.zip'),
  await beside(stage, PACKAGE_MAKER, (load) => packageOf(stage, parts, load, say('page.title'))));
writeModule(stage, core.whole, join(dirname(resolve(site)), 'module'), components);
writeOfflinePage(stage, join(dirname(resolve(site)), 'lesson-offline.html'), esbuild, say);

if (existsSync(site)) renameSync(site, old);
renameSync(stage, site);
rmSync(old, { recursive: true, force: true });
if (english) {
  writeIfChanged(join(project, 'docs/sources.md'), markdown(tables, say));
  writeIfChanged(join(project, 'docs/finding.md'), findingMarkdown(study, say));
  const thirdParty = join(project, 'docs/third-party.md');
  writeIfChanged(thirdParty, withTable(readFileSync(thirdParty, 'utf8'), components));
}
