// Makes the C++ table of words from the catalogue: the keys "core.*", which are the
// core's own, sorted for a binary search. The page reads the catalogue itself.
//   node web/words.mjs CATALOGUE.json OUTPUT.cpp
import { mkdirSync, writeFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { catalogue } from './catalogue.mjs';

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
if (!from || !to) throw new Error('usage: node web/words.mjs CATALOGUE.json OUTPUT.cpp');

const entries = Object.entries(catalogue(from)).filter(([key]) => key.startsWith('core.'));
entries.sort(([a], [b]) => Buffer.compare(Buffer.from(a), Buffer.from(b)));

mkdirSync(dirname(to), { recursive: true });
writeFileSync(to, `// Made by web/words.mjs from ${basename(from)}.
#include "core/word_table.h"

namespace core {
namespace {

constexpr Word kWords[] = {
${entries.map(([key, text]) => `    {${literal(key)}, ${literal(text)}},\n`).join('')}};

}  // namespace

const WordTable kWordTable = {kWords, sizeof kWords / sizeof kWords[0]};

}  // namespace core
`);
