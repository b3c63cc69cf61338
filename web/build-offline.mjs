// Makes the single file of a built page: everything in it, to be opened from disk, with no
// server and no network. The same page gives the same bytes.
//   node web/build-offline.mjs --site build/site --out build/lesson-offline.html [--esbuild PROGRAM]
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { catalogue, sayer } from './catalogue.mjs';

/** Fetched by the served page, carried by this one; see shell/carried.js. */
const CARRIED = ['core.wasm', 'core-more.wasm', 'view.wasm', 'study.wasm'];
/** Asked for by scripts, and done without where there is no server; docs/offline.md says how. */
const DONE_WITHOUT = ['files.json', 'study-simd.wasm', 'fonts/text-regular.woff2', 'fonts/text-semibold.woff2'];
/** Pages of the site that stand by themselves. */
const LEFT_OUT = 'sources\\.html|lesson\\.html|study\\.html';

/** @param {string} text As it stands between the tags. */
const hashOf = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** A part of the page that was looked for and is not there stops the build.
 * @param {string} html @param {RegExp} what All of its places. @param {(...match: string[]) => string} by */
function replaced(html, what, by) {
  let count = 0;
  const made = html.replace(what, (...match) => {
    count += 1;
    return by(...match);
  });
  if (count === 0) throw new Error(`index.html has no ${what}`);
  return made;
}

/**
 * @param {string} site The built page.
 * @param {string} esbuild
 * @param {import('./catalogue.mjs').Say} say
 * @returns {string}
 */
export function offlinePage(site, esbuild, say) {
  /** @param {string} name */
  const text = (name) => readFileSync(join(site, name), 'utf8');
  /** @param {string} name */
  const base64 = (name) => readFileSync(join(site, name)).toString('base64');

  /** The modules as one plain script. @param {string} name */
  const bundle = (name) => execFileSync(esbuild, [name, '--bundle', '--format=iife', '--target=es2020',
    '--charset=utf8', '--minify-syntax', '--minify-whitespace', '--log-level=warning',
    '--define:import.meta.url=location.href', '--external:node:*'],
  { cwd: site, encoding: 'utf8', maxBuffer: 1 << 26 });

  let html = text('index.html');
  const page = html;
  /** @type {string[]} */
  const sheets = [];
  html = replaced(html, /<link rel="stylesheet" href="([\w.-]+)">\n/g, (_, name) => {
    sheets.push(text(name));
    return '';
  });
  const css = replaced(sheets.join('\n'), /url\("?(fonts\/[\w.-]+\.woff2)"?\)/g, (_, name) => `url("data:font/woff2;base64,${base64(name)}")`);
  if (/url\("?(?!"?data:)|@import/.test(css)) throw new Error('a style sheet names a file that the single file does not have');

  const early = text('early.js');
  const main = bundle('main.js');
  for (const script of [early, main]) {
    if (/<!--|<\/?script/i.test(script)) throw new Error('a script would end, or never end, where it stands in the page');
  }
  for (const name of readdirSync(site, { recursive: true, encoding: 'utf8' })) {
    const served = /\.(json|svg|png|wasm|webmanifest|woff2|xml)$/.test(name) && ![...CARRIED, ...DONE_WITHOUT].includes(name);
    if (served && main.includes(`"${name}"`)) {
      throw new Error(`a script names ${name}, which the single file does not have: put it into CARRIED or DONE_WITHOUT`);
    }
  }

  const policy = ["default-src 'none'", `script-src ${hashOf(early)} ${hashOf(main)} 'wasm-unsafe-eval'`,
    `style-src ${hashOf(css)}`, 'img-src data: blob:', 'font-src data:', "base-uri 'none'", "form-action 'none'"].join('; ');
  html = replaced(html, /(<meta http-equiv="Content-Security-Policy" content=")[^"]*/, (_, start) => start + policy);
  html = replaced(html, /<link rel="(?:preload|modulepreload|manifest|apple-touch-icon)"[^>]*>\n/g, () => '');
  html = replaced(html, /<link rel="icon" href="([\w.-]+\.svg)">/, (_, name) => `<link rel="icon" href="data:image/svg+xml;base64,${base64(name)}">`);
  html = replaced(html, /<script src="early\.js"><\/script>\n/, () => `<style>${css}</style>\n<script>${early}</script>\n`);
  html = replaced(html, /<script type="module" src="main\.js"><\/script>\n/, () => '');
  // Pages of their own are left out, and the file says so where the page leads to them.
  html = replaced(html, new RegExp(`<p class="notice">([^<]*) <a[^>]* href="(?:${LEFT_OUT})">[^<]*</a></p></noscript>`), (_, words) => `<p class="notice">${words}</p></noscript>`);
  html = replaced(html, new RegExp(`(?: <a[^>]* href="(?:${LEFT_OUT})">[^<]*</a>)+(?= <a)`), () => ` <span id="left-out">${say('page.offline.left_out', {
    reading: say('page.reading.link'), sources: say('page.sources.title'), study: say('page.study.title') })}</span>`);
  // To be kept as a file, since browsers lead to no such address.
  html = replaced(html, / href="(notices\.txt)"/, (_, name) => ` download="${name}" href="data:text/plain;base64,${base64(name)}"`);
  html = replaced(html, new RegExp(` *<p class="leads-out"><a[^>]* href="(?:${LEFT_OUT})">[^<]*</a></p>\\n`, 'g'), () => '');
  // At the end, as modules run once the page stands.
  html = replaced(html, /<\/body>/, () => `${CARRIED.map((name) => `<script type="application/octet-stream" id="carried-${name}">${base64(name)}</script>\n`).join('')}<script>${main}</script>\n</body>`);

  // Of the page alone: in a script such text is a manifest's.
  const markup = html.replace(/<script[^>]*>[^]*?<\/script>/g, '');
  for (const [, target] of markup.matchAll(/<[a-z][^>]*\s(?:href|src|srcset|action|data)="([^"]*)"/g)) {
    if (!/^(#|data:)/.test(target)) throw new Error(`the single file names ${target}, which it does not have`);
  }
  if (html === page) throw new Error('nothing was put into the single file');
  return html;
}

/** @param {string} site @param {string} out @param {string} esbuild @param {import('./catalogue.mjs').Say} say */
export function writeOfflinePage(site, out, esbuild, say) {
  writeFileSync(`${out}.new`, offlinePage(site, esbuild, say));
  renameSync(`${out}.new`, out);
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const { values } = parseArgs({
    options: { site: { type: 'string' }, out: { type: 'string' }, esbuild: { type: 'string', default: 'esbuild' } },
  });
  if (!values.site || !values.out) throw new Error('--site and --out are needed');
  writeOfflinePage(values.site, values.out, values.esbuild, sayer(catalogue()));
}
