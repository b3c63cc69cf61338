// Makes a language up: English with accents and brackets, at least two fifths longer. Text of
// the page that has no accents then comes from no catalogue.
//   node tests/browser/pseudo.mjs FOLDER     writes FOLDER/words/en-XA.json, FOLDER/lesson/entry.en-XA.json
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** BCP 47's own code for English with accents: its plurals are those of English. */
export const PSEUDO = 'en-XA';

/** The picture's letters are Latin-1, and so are these. */
const ACCENTS = new Map([...'aáeéiíoóuúyýAÁEÉIÍOÓUÚYÝ'.matchAll(/(.)(.)/gu)].map(([, plain, accented]) => [plain, accented]));
const VOWELS = /[aeiouyAEIOUY]/g;
const LONGER = 1.4;

/** Names of invented fixes: up to twelve capital letters, in every language. */
export const FIX_NAMES = ['core.item.fixes', 'core.item.station', 'core.pic.fix'];

/** What is no text: placeholders of the catalogue and of the lesson, marks of emphasis. */
const KEPT = /\{[^}]*\}|\*/g;

/**
 * Each vowel with an accent and twice, the last one more often where that is not long enough.
 * @param {string} text
 */
export function pseudo(text) {
  if (!/[A-Za-z]/.test(text.replace(KEPT, ''))) return text;
  const kept = text.match(KEPT) ?? [];
  const parts = text.split(KEPT).map((part) => part.replace(VOWELS, (letter) => {
    const accented = /** @type {string} */ (ACCENTS.get(letter));
    return accented + accented.toLowerCase();
  }));
  const bare = () => parts.join('').length + 2;
  const last = parts.reduce((found, part, i) => (/[áéíóúý]/.test(part) ? i : found), -1);
  const at = parts[last]?.search(/[áéíóúý](?!.*[áéíóúý])/s) ?? -1;
  const more = Math.max(0, Math.ceil(text.split(KEPT).join('').length * LONGER) - bare());
  if (at >= 0) parts[last] = parts[last].slice(0, at) + parts[last][at].repeat(more) + parts[last].slice(at);
  return `[${parts.map((part, i) => part + (kept[i] ?? '')).join('')}]`;
}

/** Texts of the lesson's file, by the keys that hold them. */
const TEXTS = new Set(['title', 'about', 'text', 'ask', 'observe', 'why', 'label', 'words', 'hint']);

/** @param {unknown} value @param {string} key @returns {unknown} */
function pseudoLesson(value, key) {
  if (Array.isArray(value)) return value.map((item) => pseudoLesson(item, key));
  if (value && typeof value === 'object') return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, pseudoLesson(item, name)]));
  return typeof value === 'string' && TEXTS.has(key) ? pseudo(value) : value;
}

/** @param {string} name */
const asset = (name) => JSON.parse(readFileSync(new URL(`../../assets/${name}`, import.meta.url), 'utf8'));

/** @param {string} folder */
function write(folder) {
  for (const name of ['words', 'lesson']) mkdirSync(join(folder, name), { recursive: true });
  const words = Object.fromEntries(Object.entries(asset('words/en.json')).map(([key, text]) => [key, FIX_NAMES.includes(key) ? text : pseudo(text)]));
  writeFileSync(join(folder, `words/${PSEUDO}.json`), `${JSON.stringify({ ...words, 'page.lang': PSEUDO }, null, 1)}\n`);
  const lesson = /** @type {object} */ (pseudoLesson(asset('lesson/entry.en.json'), ''));
  writeFileSync(join(folder, `lesson/entry.${PSEUDO}.json`), `${JSON.stringify({ ...lesson, lang: PSEUDO }, null, 1)}\n`);
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const [, , folder] = process.argv;
  if (!folder) throw new Error('usage: node tests/browser/pseudo.mjs FOLDER');
  write(folder);
}
