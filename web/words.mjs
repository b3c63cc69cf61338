// Makes the C++ table of words from the catalogue: the keys "core.*", which are the
// core's own, sorted for a binary search. The page reads the catalogue itself.
//   node web/words.mjs CATALOGUE.json OUTPUT.inc
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

/**
 * A C++ string literal. Bytes outside ASCII stay as they are: the sources are UTF-8.
 * @param {string} text
 */
function literal(text) {
  const body = text.replace(/[\\"?\u0000-\u001f\u007f]/g, (c) => {
    if (c === '\n') return '\\n';
    // Octal, three digits: unlike hexadecimal it cannot swallow the letter that follows.
    return /[\\"?]/.test(c) ? `\\${c}` : `\\${c.charCodeAt(0).toString(8).padStart(3, '0')}`;
  });
  return `"${body}"`;
}

const [, , from, to] = process.argv;
if (!from || !to) throw new Error('usage: node web/words.mjs CATALOGUE.json OUTPUT.inc');

/** @type {unknown} */
const words = JSON.parse(readFileSync(from, 'utf8'));
if (typeof words !== 'object' || words === null || Array.isArray(words)) {
  throw new Error(`${from}: one flat object of key and text is wanted`);
}
const entries = Object.entries(words).filter(([key]) => key.startsWith('core.'));
for (const [key, text] of entries) {
  if (typeof text !== 'string') throw new Error(`${from}: the text of "${key}" is not a string`);
}
entries.sort(([a], [b]) => Buffer.compare(Buffer.from(a), Buffer.from(b)));
if (entries.length === 0) entries.push(['', '']); // C++ has no empty arrays

mkdirSync(dirname(to), { recursive: true });
writeFileSync(to, entries.map(([key, text]) => `{${literal(key)}, ${literal(text)}},\n`).join(''));
