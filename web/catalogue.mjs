// The words of a language: assets/words/, one flat file of key and text for each. What a
// language's file lacks is said in English.
import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ENGLISH = fileURLToPath(new URL('../assets/words/en.json', import.meta.url));

/** @typedef {(key: string, values?: Record<string, string | number>) => string} Say */

/** @param {string} file @returns {Record<string, string>} Throws where it is not what it should be. */
function read(file) {
  /** @type {unknown} */
  const words = JSON.parse(readFileSync(file, 'utf8'));
  if (typeof words !== 'object' || words === null || Array.isArray(words)) throw new Error(`${file}: one flat object of key and text is wanted`);
  for (const [key, text] of Object.entries(words)) if (typeof text !== 'string') throw new Error(`${file}: the text of "${key}" is not a string`);
  const lang = basename(file, '.json');
  if (/** @type {Record<string, string>} */ (words)['page.lang'] !== lang) throw new Error(`${file}: "page.lang" has to be "${lang}", the name of the file`);
  return /** @type {Record<string, string>} */ (words);
}

/** The whole catalogue of a language. @param {string} [file] */
export const catalogue = (file = ENGLISH) => ({ ...read(ENGLISH), ...read(file) });

/** Keys that a language's file lacks. @param {string} file */
export function missing(file) {
  const own = read(file);
  return Object.keys(read(ENGLISH)).filter((key) => !Object.hasOwn(own, key));
}

/**
 * The file of the lesson in a catalogue's language, or the English one. It lies in a folder
 * beside the catalogue's.
 * @param {string} file The catalogue.
 */
export function lessonFile(file) {
  /** @param {string} catalogueFile */
  const beside = (catalogueFile) => join(dirname(catalogueFile), '../lesson', `entry.${basename(catalogueFile)}`);
  return existsSync(beside(file)) ? beside(file) : beside(ENGLISH);
}

/**
 * @param {Record<string, string>} words The catalogue.
 * @returns {Say} Throws on a missing word.
 */
export const sayer = (words) => (key, values = {}) => {
  if (!Object.hasOwn(words, key)) throw new Error(`no word for ${key}`);
  return words[key].replace(/\{(\w+)\}/g, (whole, name) => String(values[name] ?? whole));
};

/** Text for a number, in the form that the language has for it. @param {Say} say @param {string} key @param {number} n */
export const counted = (say, key, n) => say(`${key}.${new Intl.PluralRules(say('page.lang')).select(n)}`, { n });
