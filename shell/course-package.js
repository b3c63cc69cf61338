// The course package of a page: its files, their manifest, all in one zip. Made by the page and
// by the build alike. No file in it is an .mjs: some course platforms do not know the type of
// such a file, and browsers refuse a module that comes with a wrong one.
import { manifestOf } from './course-manifest.js';
import { zipOf } from './zip.js';

const MODULE = /\.mjs$/;
/** What can name another file of the page. */
const TEXT = /\.(?:css|html|js|mjs|svg|webmanifest)$/;
/** A whole name in quotes. The page's modules all stand in one folder, beside what names them. */
const QUOTED = /(['"`])(\.\/)?([\w-]+\.mjs)\1/g;
/** What could still be asked for: a name that ends as in a program or a page. In plain words it may stay. */
const LEFT = /[\w./-]{0,40}\.mjs(?=\s*['"`?#>\\])/;

/** One dot alone, since there are platforms that ask no further. @param {string} name */
const plain = (name) => name.replace(MODULE, '-mjs.js');

/**
 * A page's files with no .mjs among them, nor one that is named. Throws where that cannot be had.
 * @param {Map<string, Uint8Array>} files
 * @returns {Map<string, Uint8Array>}
 */
export function plainFiles(files) {
  /** @type {Map<string, Uint8Array>} */
  const made = new Map();
  for (const [name, bytes] of files) {
    if (MODULE.test(name) && files.has(plain(name))) throw new Error(`${plain(name)} is there already`);
    made.set(plain(name), TEXT.test(name) ? plainText(name, bytes, files) : bytes);
  }
  return made;
}

/** @param {string} name @param {Uint8Array} bytes @param {Map<string, Uint8Array>} files Those that may be named. */
function plainText(name, bytes, files) {
  const text = new TextDecoder().decode(bytes);
  const made = text.replace(QUOTED, (all, quote, here = '', file) => (files.has(file) ? `${quote}${here}${plain(file)}${quote}` : all));
  const left = LEFT.exec(made);
  if (left) throw new Error(`${name} still names ${left[0]}`);
  return made === text ? bytes : new TextEncoder().encode(made);
}

/**
 * @param {import('./course-manifest.js').Package} wanted
 * @param {Map<string, Uint8Array>} page Its files by name, and a question set where one is asked.
 */
export function packageOf(wanted, page) {
  const files = plainFiles(page);
  files.set('imsmanifest.xml', new TextEncoder().encode(manifestOf(wanted, [...files.keys()])));
  return zipOf(files);
}
