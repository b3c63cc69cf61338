// Makes few files of the page's many modules, small ones: what the first view needs are two scripts,
// and each part that is asked for later brings its own. Names of modules mean nothing after this;
// the scripts that others know by name keep theirs.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';

/** Known by name: to other pages, to the course package, to tests, or since they are made later. */
const BY_NAME = ['core.mjs', 'study.mjs', 'view.mjs', 'qrcode.mjs', 'build.js', 'lesson-entry.js'];
/** Filled in later, and no part of a page. */
const UNTOUCHED = ['service-worker.js'];
/** Scripts that stand by themselves: of other pages, of a worker. */
const APART = ['lesson.js', 'sources.js', 'study.js', 'study-worker.js'];
/** Stay what they are, smaller, with what they import. */
const ALONE = ['early.js', 'core.mjs', 'study.mjs'];
/** What is in those. */
const IN_THOSE = ['wasm.mjs'];
const SMALL = ['--minify', '--format=esm', '--target=es2020', '--charset=utf8', '--log-level=warning'];

/** @typedef {{imports: {path: string, kind: string}[], inputs: Record<string, unknown>}} Output */

/**
 * Replaces the modules of an assembled page.
 * @param {string} stage @param {string} esbuild
 * @returns {string[]} The scripts that main.js begins with, for the page to ask for early.
 */
export function bundleScripts(stage, esbuild) {
  const out = mkdtempSync(`${stage}.scripts`);
  /** @param {string[]} args @returns {Record<string, Output>} by name */
  function run(args) {
    const meta = join(out, 'meta.json');
    execFileSync(esbuild, [...args, ...SMALL, '--bundle', ...BY_NAME.map((name) => `--external:./${name}`), `--outdir=${out}`, `--metafile=${meta}`], { cwd: stage, stdio: 'inherit' });
    /** @type {{outputs: Record<string, Output>}} */
    const { outputs } = JSON.parse(readFileSync(meta, 'utf8'));
    rmSync(meta);
    return Object.fromEntries(Object.entries(outputs).map(([path, output]) => [relative(out, join(stage, path)), output]));
  }
  /** @param {Record<string, Output>} outputs */
  const begins = (outputs) => {
    /** @type {Set<string>} */
    const seen = new Set();
    const follow = (/** @type {string} */ name) => {
      for (const { path, kind } of outputs[name]?.imports ?? []) {
        const file = relative(out, join(stage, path));
        if (kind !== 'import-statement' || seen.has(file) || !outputs[file]) continue;
        seen.add(file);
        follow(file);
      }
    };
    follow('main.js');
    return [...seen];
  };
  const split = ['main.js', '--splitting', '--chunk-names=[name]-[hash]'];
  try {
    const apart = run(split);
    // What main.js shares with one later part or another would come in a dozen scripts: all
    // parts are made to share all of it.
    const shared = begins(apart).flatMap((name) => Object.keys(apart[name].inputs)).sort();
    for (const name of readdirSync(out)) rmSync(join(out, name));
    writeFileSync(join(stage, 'shared.js'), shared.map((name) => `import './${name}';\n`).join(''));
    const made = run([...split, '--inject:./shared.js']);
    run(APART);
    for (const name of ALONE) {
      execFileSync(esbuild, [name, ...SMALL, '--bundle', '--external:node:*', `--outfile=${join(out, name)}`], { cwd: stage, stdio: 'inherit' });
    }
    for (const name of IN_THOSE) rmSync(join(stage, name));
    for (const name of readdirSync(stage)) {
      if (name.endsWith('.js') && !BY_NAME.includes(name) && !UNTOUCHED.includes(name)) rmSync(join(stage, name));
    }
    for (const name of readdirSync(out)) renameSync(join(out, name), join(stage, name));
    return begins(made);
  } finally {
    rmSync(out, { recursive: true });
  }
}

/** The style sheets of a page's picture, and of what comes below or beside it. */
const SHEETS = ['first.css', 'rest.css'];

/**
 * One style sheet for those that a page names at one place, in their order; those that no other
 * page names go. A page names them at its head and, where the rest may come later, once more.
 * @param {string} stage @param {string} page @param {string[]} others Other pages. @param {string} esbuild
 * @returns {string} The page.
 */
export function bundleStyles(stage, page, others, esbuild) {
  const names = [...page.matchAll(/<link rel="stylesheet" href="([\w.-]+)">\n/g)].map(([, name]) => name);
  let made = 0;
  const bundled = page.replace(/(?:<link rel="stylesheet" href="[\w.-]+">\n)+/g, (links) => {
    const sheet = SHEETS[made];
    if (!sheet) throw new Error('a page names its style sheets at three places');
    made += 1;
    const file = join(stage, sheet);
    writeFileSync(file, [...links.matchAll(/href="([\w.-]+)"/g)].map(([, name]) => readFileSync(join(stage, name), 'utf8')).join('\n'));
    execFileSync(esbuild, [file, '--minify', '--charset=utf8', '--log-level=warning', '--allow-overwrite', `--outfile=${file}`], { stdio: 'inherit' });
    return `<link rel="stylesheet" href="${sheet}">\n`;
  });
  if (made === 0) throw new Error('a page names no style sheet');
  for (const name of names) if (!others.some((other) => other.includes(`href="${name}"`))) rmSync(join(stage, name));
  return bundled;
}
