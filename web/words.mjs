// Makes the C++ table of words from the catalogue: the keys "core.*", which are the
// core's own, sorted for a binary search. The page reads the catalogue itself.
//   node web/words.mjs CATALOGUE.json OUTPUT.cpp
import { mkdirSync, writeFileSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { catalogue } from './catalogue.mjs';

/** What the page's first view says: the rest comes with core-more.wasm. */
const FIRST = ['allowed', 'because', 'book', 'entry', 'event', 'gap', 'headline', 'lap', 'left', 'leg', 'mark',
  'next', 'none', 'outcome', 'pic', 'picture', 'plan', 'problem', 'right', 'sector', 'side', 'stop', 'sum', 'summary'];
/** Of core/word_table.h. */
const END_OF_KEY = '\x1f';
const END_OF_TEXT = '\x1e';

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

/**
 * The two tables of a catalogue, a record for each word.
 * @param {string} file
 */
export function wordRecords(file) {
  const entries = Object.entries(catalogue(file)).filter(([key]) => key.startsWith('core.'));
  entries.sort(([a], [b]) => Buffer.compare(Buffer.from(a), Buffer.from(b)));
  const records = entries.map(([key, text]) => ({
    is_first: FIRST.includes(key.split('.')[1] ?? ''), text: `${key}${END_OF_KEY}${text}${END_OF_TEXT}`,
  }));
  /** @param {boolean} first */
  const those = (first) => records.filter(({ is_first }) => is_first === first).map(({ text }) => text);
  return { first: those(true), more: those(false) };
}

/** @param {string} name @param {string[]} records */
const array = (name, records) => `constexpr char ${name}[] =\n${records.map((text) => `    ${literal(text)}\n`).join('')}    ;\n`;

/** @param {string} from @param {string} to */
function writeTable(from, to) {
  const { first, more } = wordRecords(from);
  mkdirSync(dirname(to), { recursive: true });
  writeFileSync(to, `// Made by web/words.mjs from ${basename(from)}.
#include "core/word_table.h"

namespace core {
namespace {

${array('kFirst', first)}
${array('kMore', more)}
}  // namespace

const WordTable kWordTable = {{kFirst, sizeof kFirst - 1}, {kMore, sizeof kMore - 1}};

}  // namespace core
`);
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const [, , from, to] = process.argv;
  if (!from || !to) throw new Error('usage: node web/words.mjs CATALOGUE.json OUTPUT.cpp');
  writeTable(from, to);
}
