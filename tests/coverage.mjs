// The table of tests/coverage.sh, from what `llvm-cov export` counted.
//   node tests/coverage.mjs FILE [--lines PERCENT --branches PERCENT] [--list]
import { readFileSync, readdirSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';

const { values: options, positionals: [file] } = parseArgs({
  allowPositionals: true,
  options: { lines: { type: 'string' }, branches: { type: 'string' }, list: { type: 'boolean', default: false } },
});

/** @typedef {{count: number, covered: number}} Count */
/** @typedef {[line: number, column: number, count: number, has_count: boolean, is_entry: boolean, is_gap: boolean]} Segment */
/** @typedef {[line: number, column: number, end_line: number, end_column: number, yes: number, no: number, ...more: number[]]} Branch */
/** @typedef {{filename: string, summary: {lines: Count, branches: Count}, segments: Segment[], branches: Branch[]}} File */
/** @type {{data: {files: File[]}[]}} */
const { data: [{ files }] } = JSON.parse(readFileSync(file, 'utf8'));

/** A template is counted once for each of its types: a branch is taken where one of them takes it. @param {File} of */
function branchesOf(of) {
  /** @type {Map<string, {line: number, column: number, yes: number, no: number}>} */
  const found = new Map();
  for (const [line, column, end_line, end_column, yes, no] of of.branches) {
    const key = [line, column, end_line, end_column].join(' ');
    const there = found.get(key) ?? { line, column, yes: 0, no: 0 };
    found.set(key, { line, column, yes: there.yes + yes, no: there.no + no });
  }
  return [...found.values()];
}

/** Lines that no test ran. @param {File} of */
function unrun(of) {
  /** @type {Map<number, number>} */
  const counts = new Map();
  let now = -1;
  let at = 0;
  const ends = of.segments.at(-1)?.[0] ?? 0;
  for (let line = 1; line <= ends; ++line) {
    let best = now;
    while (at < of.segments.length && of.segments[at][0] === line) {
      const [, , count, has_count, is_entry, is_gap] = of.segments[at++];
      now = has_count && !is_gap ? count : -1;
      if (is_entry && now >= 0) best = Math.max(best, now);
    }
    if (best >= 0) counts.set(line, best);
  }
  return [...counts].filter(([, count]) => count === 0).map(([line]) => line);
}

const rows = files.map((of) => {
  const branches = branchesOf(of);
  const ways = branches.flatMap(({ yes, no }) => [yes, no]);
  return { of, name: basename(of.filename), lines: of.summary.lines, branches: { count: ways.length, covered: ways.filter((n) => n > 0).length }, open: branches.filter(({ yes, no }) => yes === 0 || no === 0) };
}).sort((a, b) => (a.name < b.name ? -1 : 1));
/** @param {(row: typeof rows[number]) => Count} of @returns {Count} */
const sum = (of) => rows.reduce((all, row) => ({ count: all.count + of(row).count, covered: all.covered + of(row).covered }), { count: 0, covered: 0 });
const total = { name: 'all of core/', lines: sum((row) => row.lines), branches: sum((row) => row.branches) };

/** @param {Count} of */
const share = ({ count, covered }) => (count === 0 ? 100 : (100 * covered) / count);
/** @param {Count} of */
const cell = (of) => `${of.covered}/${of.count}`.padStart(12) + ` ${share(of).toFixed(1).padStart(6)}`;
console.log(`${''.padEnd(30)}${'lines'.padStart(12)} ${'%'.padStart(6)}${'branches'.padStart(12)} ${'%'.padStart(6)}`);
for (const row of [...rows, total]) console.log(`${row.name.padEnd(30)}${cell(row.lines)}${cell(row.branches)}`);

// A file that no test needs is not linked in, and nothing of it is counted.
const core = new URL('../core/', import.meta.url);
const missing = readdirSync(core).filter((name) => name.endsWith('.cpp') && !rows.some((row) => row.name === name));
if (missing.length) console.log(`\nIn no test at all: ${missing.join(', ')}`);

if (options.list) {
  for (const { of, name, open } of rows) {
    const text = readFileSync(of.filename, 'utf8').split('\n');
    const lines = unrun(of);
    if (lines.length) console.log(`\n${name}: lines not run\n${lines.map((line) => `  ${line}: ${text[line - 1].trim()}`).join('\n')}`);
    const ways = open.filter(({ yes, no }) => yes + no > 0); // the others are in lines not run
    if (ways.length) console.log(`\n${name}: one way only\n${ways.map(({ line, column, yes }) => `  ${line}:${column} always ${yes ? 'true' : 'false'}: ${text[line - 1].trim()}`).join('\n')}`);
  }
}

let low = missing.length > 0 && options.lines !== undefined;
for (const [name, floor, of] of /** @type {[string, string | undefined, Count][]} */ ([['lines', options.lines, total.lines], ['branches', options.branches, total.branches]])) {
  if (floor !== undefined && share(of) < Number(floor)) {
    console.error(`${name}: ${share(of).toFixed(2)} % were run, at least ${floor} % are wanted`);
    low = true;
  }
}
if (low) process.exitCode = 1;
