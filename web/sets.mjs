// Makes the C++ table of built-in question sets from their files.
//   node web/sets.mjs OUTPUT.inc SET.json...
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

const [, , to, ...files] = process.argv;
if (!to || !files.length) throw new Error('usage: node web/sets.mjs OUTPUT.inc SET.json...');
/** Closes the raw string; no set has it. */
const END = ')set"';
const rows = files.map((file) => {
  const text = JSON.stringify(JSON.parse(readFileSync(file, 'utf8')));
  if (text.includes(END)) throw new Error(`${file} has ${END}`);
  return `{${JSON.stringify(JSON.parse(text).id)}, R"set(${text})set"},\n`;
});
mkdirSync(dirname(to), { recursive: true });
writeFileSync(to, rows.join(''));
