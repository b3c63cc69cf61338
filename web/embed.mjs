// web/embed.mjs - a file's bytes as the inside of a C array, for #include.
//   node web/embed.mjs <file> <out.inc>
import { readFileSync, writeFileSync } from 'node:fs';

const [from, to] = process.argv.slice(2);
if (!from || !to) {
  console.error('usage: node web/embed.mjs <file> <out.inc>');
  process.exit(2);
}
const bytes = [...readFileSync(from)];
const lines = [];
for (let i = 0; i < bytes.length; i += 24) lines.push(bytes.slice(i, i + 24).join(','));
writeFileSync(to, lines.join(',\n') + '\n');
