// Other people's work in the page, from the one list third-party.json: its notices with the
// full texts of the licences (notices.txt), put together from the sources and packages that the
// page is built from, and the table of docs/third-party.md. A text or version that is not where
// the list says stops the build.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const project = resolve(dirname(fileURLToPath(import.meta.url)), '..');

/** @typedef {{pin?: string, emscripten?: string, project?: string, package?: string, paragraph?: string, common?: string, words?: string, after?: string, until?: string}} Text Where a text is, and which part of it. */
/** @typedef {{pin?: string, installed?: string, debian?: string, is?: string, version?: string}} From */
/**
 * @typedef {object} Component As third-party.json has it.
 * @property {string} id Of letters, figures and hyphens. @property {string} name
 * @property {From} from @property {Text[]} [seen] Where its version stands.
 * @property {string} licence An SPDX expression. @property {string} copyright
 * @property {string[]} in Files of the site. @property {boolean} [linked] Its code is linked in.
 * @property {string[]} [archives] The linker takes it from these.
 * @property {Text[]} texts @property {string} said @property {string} used @property {string} why
 */
/** @typedef {{package: string, version: string, suite?: string, file?: string, folder?: string, sha256?: string}} Origin A Debian package, of sources or installed. */
/** @typedef {Component & {origin: Origin, version: string, text: string}} Found */

/** @returns {Record<string, Required<Origin>>} The pinned sources by name. */
function pins() {
  const rows = readFileSync(join(project, 'web/sources.txt'), 'utf8').split('\n').filter((line) => /^[^#\s]/.test(line));
  return Object.fromEntries(rows.map((row) => {
    const [name, source, version, suite, file, folder, sha256] = row.split(/\s+/);
    return [name, { package: source, version, suite, file, folder, sha256 }];
  }));
}

/** The upstream version of a Debian one. @param {string} version */
const upstream = (version) => version.replace(/-[^-]*$/, '').replace(/[+~](?:dfsg|ds)\d*$/, '');

/** @param {string} name An installed Debian package. */
function installed(name) {
  try {
    return execFileSync('dpkg-query', ['-W', '-f=${Version}', name], { encoding: 'utf8' });
  } catch {
    throw new Error(`web/third-party.json names the Debian package ${name}, which is not installed`);
  }
}

/** A licence of a Debian copyright file. @param {string} name The package. @param {string} licence */
function paragraph(name, licence) {
  const lines = readFileSync(`/usr/share/doc/${name}/copyright`, 'utf8').split('\n');
  for (let at = 0; at < lines.length; ++at) {
    if (lines[at] !== `License: ${licence}`) continue;
    let end = at + 1;
    while (lines[end]?.startsWith(' ')) ++end;
    if (end > at + 1) return lines.slice(at + 1, end).map((line) => (line === ' .' ? '' : line.slice(1))).join('\n');
  }
  throw new Error(`the copyright file of ${name} has no text of ${licence}`);
}

/** The words of a comment without its signs. @param {string} text */
const uncommented = (text) => text.split('\n').map((line) => line.replace(/^\s*(?:\/\/|\/\*|\*\/|\*(?= |$))? ?/, '').replace(/\s*\*\/\s*$/, ''))
  .filter((line) => !/^[-=]{20,}$/.test(line)).join('\n');

/** @param {Text} text @param {{sources: string, emscripten: string, folder?: string}} where */
function read(text, where) {
  const file = text.pin !== undefined ? join(where.sources, where.folder ?? '', text.pin)
    : text.emscripten !== undefined ? join(where.emscripten, text.emscripten)
      : text.project !== undefined ? join(project, text.project)
        : text.common !== undefined ? `/usr/share/common-licenses/${text.common}` : undefined;
  if (file === undefined) return text.package ? paragraph(text.package, text.paragraph ?? '') : (text.words ?? '');
  if (!existsSync(file)) throw new Error(`web/third-party.json names ${text.pin ?? text.emscripten ?? text.project ?? text.common}, which is not there`);
  let whole = readFileSync(file, 'utf8');
  for (const mark of [text.after, text.until]) {
    if (mark !== undefined && !whole.includes(mark)) throw new Error(`${file} has no "${mark}"`);
  }
  if (text.after !== undefined) whole = whole.slice(whole.indexOf(text.after));
  if (text.until !== undefined) whole = whole.slice(0, whole.indexOf(text.until));
  return /\.(?:c|cpp|h|js)$/.test(file) ? uncommented(whole) : whole;
}

/**
 * The components with their origin, version and texts.
 * @param {{sources: string, emscripten: string}} where The folders of the pinned sources and of Emscripten.
 * @returns {Found[]}
 */
export function componentsOf(where) {
  const pinned = pins();
  /** @type {{components: Component[]}} */
  const { components } = JSON.parse(readFileSync(join(project, 'web/third-party.json'), 'utf8'));
  return components.map((component) => {
    const { pin, installed: name, debian, is } = component.from;
    if (pin !== undefined && !pinned[pin]) throw new Error(`web/sources.txt does not pin ${pin}`);
    /** @type {Origin} */
    const origin = pin !== undefined ? pinned[pin]
      : name !== undefined ? { package: name, version: installed(name) } : { package: debian ?? '', version: is ?? '' };
    const here = { ...where, folder: origin.folder };
    for (const { words, ...place } of component.seen ?? []) {
      if (!read(place, here).includes(words ?? '')) throw new Error(`${component.name}: "${words}" is not where web/third-party.json says`);
    }
    const text = component.texts.map((part) => read(part, here).replace(/[ \t\f]+$/gm, '').replace(/^\n+|\s+$/g, '')).join('\n\n');
    return { ...component, origin, version: component.from.version ?? upstream(origin.version), text };
  });
}

/** What begins the text of a component in the notices. @param {{name: string, version: string}} component */
export const noticeHead = ({ name, version }) => `${name}, ${version}`;

const RULE = '='.repeat(78);

/**
 * The notices of some components, as a file. A mark at its start says UTF-8 where a server does not.
 * @param {Found[]} components @param {string} whose What has them in it.
 */
export const noticesText = (components, whose) => `\uFEFF${[
  `${whose} other people's work in it,`,
  'under the licences below. Our own part names no licence. contents.spdx.json beside the',
  'served page lists file by file what the page is made of.',
  ...components.flatMap((component) => ['', RULE, noticeHead(component), `Licence: ${component.licence}`, component.copyright, `In: ${component.in.join(', ')}`, RULE, '', component.text]),
].join('\n')}\n`;

const BEGIN = '<!-- written by the build from web/third-party.json -->\n';
const END = '<!-- until here -->\n';

/** The human list with its table brought up to date. @param {string} page docs/third-party.md @param {Found[]} components */
export function withTable(page, components) {
  const [before, rest] = page.split(BEGIN);
  const after = rest?.split(END)[1];
  if (after === undefined) throw new Error('docs/third-party.md has lost the place of its table');
  const rows = components.map((c) => `| ${c.name} | ${c.version} | ${c.licence}; ${c.said} | ${c.used} | ${c.why} |\n`);
  return `${before}${BEGIN}| what | version | licence, and where it says so | used for | chosen because |\n| --- | --- | --- | --- | --- |\n${rows.join('')}${END}${after}`;
}
