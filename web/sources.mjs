// The tables of checks (tests/tables) as people read them: docs/sources.md, and the rows of
// the page's list of sources (shell/sources-page.mjs).
//   node web/sources.mjs --program SOURCES_LIST --check docs/sources.md   fails where it differs
//   node web/sources.mjs --program SOURCES_LIST --write docs/sources.md
// SOURCES_LIST is tests/sources_list.cpp, built for this machine or (.js) as WebAssembly.
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { catalogue, counted, sayer } from './catalogue.mjs';

const project = fileURLToPath(new URL('..', import.meta.url));

/** @typedef {number | null | string[]} Value A number, or the names of entries. */
/** @typedef {{id: string, what: string, unit: string, expected: Value, tolerance: number, actual: Value, source: string, mark: string, ok: boolean}} Row */
/** @typedef {{id: string, title: string, rows: Row[]}} Table */
/** @typedef {{id: string, what: string, expected: string, within: string, actual: string, mark: string, source: string, result: string, ok: boolean}} Line A row in words. */
/** @typedef {{id: string, title: string, lines: Line[]}} Section */
/** @typedef {import('./catalogue.mjs').Say} Say */

/** In the order in which they are explained. */
export const MARKS = ['seen', 'memory', 'derived', 'practice'];
/** Of a line, in the order in which a table shows them. */
export const COLUMNS = /** @type {const} */ (['what', 'expected', 'within', 'actual', 'result', 'mark', 'source', 'id']);

/** A tolerance up to this allows nothing but the rounding of the computer's own arithmetic. */
const ROUNDING = 1e-9;

/** Faults of the list in all_tables.h against its folder, one text each. @param {string} folder */
export function unlisted(folder) {
  const list = readFileSync(join(folder, 'all_tables.h'), 'utf8');
  /** @type {string[]} */
  const faults = [];
  for (const file of readdirSync(folder).filter((name) => name.endsWith('_checks.h'))) {
    if (!list.includes(`#include "tests/tables/${file}"`)) faults.push(`all_tables.h does not include ${file}`);
    const tables = [...readFileSync(join(folder, file), 'utf8').matchAll(/\bCheck (\w+)\[\]/g)].map(([, name]) => name);
    if (tables.length === 0) faults.push(`${file} has no table`);
    for (const name of tables) if (!new RegExp(`table\\([^;]*?\\b${name}\\)`).test(list)) faults.push(`all_tables.h does not list ${name}`);
  }
  return faults;
}

/** Throws where a table is not listed, or has no row. @param {string} program @returns {Table[]} */
export function tablesOf(program) {
  const faults = unlisted(join(project, 'tests/tables'));
  if (faults.length) throw new Error(faults.join('; '));
  const [command, ...args] = program.endsWith('.js') ? [process.execPath, program] : [resolve(program)];
  /** @type {Table[]} */
  const tables = JSON.parse(execFileSync(command, args, { encoding: 'utf8', maxBuffer: 1 << 26 }));
  if (tables.length === 0 || tables.some(({ rows }) => rows.length === 0)) throw new Error(`${program} printed no rows`);
  return tables;
}

/** Decimals that write a number as it stands in its table. @param {number} value */
function decimalsOf(value) {
  let n = 0;
  while (n < 9 && Math.abs(Number(value.toFixed(n)) - value) > 1e-12 * Math.abs(value)) ++n;
  return n;
}

/**
 * A number with fixed decimals, thousands set off, halves away from zero. What lies on a half
 * but for noise counts as the half, so that every machine writes the same.
 * @param {number} value @param {number} decimals
 */
export function figures(value, decimals) {
  const scale = 10 ** decimals;
  const rounded = Math.floor(Math.abs(value) * scale + 0.5 + 1e-6) / scale;
  const [whole, part] = rounded.toFixed(decimals).split('.');
  const text = whole.replace(/\B(?=(\d{3})+$)/g, ',') + (part ? `.${part}` : '');
  return value < 0 && rounded !== 0 ? `−${text}` : text;
}

/** Three digits before the point; north is 360. @param {number} value @param {number} decimals */
function direction(value, decimals) {
  const turned = ((value % 360) + 360) % 360;
  const text = figures(turned, decimals);
  const [whole, part] = (Number(text) === 0 ? figures(360, decimals) : text).split('.');
  return whole.padStart(3, '0') + (part ? `.${part}` : '');
}

/** @param {Value} value @param {string} unit @param {number} decimals @param {Say} say */
function inWords(value, unit, decimals, say) {
  if (Array.isArray(value)) {
    const names = value.map((name) => say(`page.sources.entry.${name}`));
    return names.length ? names.reduce((a, b) => say('page.sources.or', { a, b })) : say('page.sources.none');
  }
  if (value === null) return say('page.sources.none');
  return say(`page.sources.unit.${unit}`, { n: unit === 'direction' ? direction(value, decimals) : figures(value, decimals) });
}

/**
 * One row in words. The computed number has the decimals of what is expected and of its
 * tolerance, and more where it does not agree.
 * @param {Row} row @param {Say} say
 * @returns {Line}
 */
export function lineOf(row, say) {
  const exact = row.tolerance <= ROUNDING;
  const own = typeof row.expected === 'number' ? decimalsOf(row.expected) : 0;
  const borne = Math.max(own, exact ? 0 : decimalsOf(row.tolerance)) + (row.ok ? 0 : 4);
  const within = () => {
    const n = figures(row.tolerance, decimalsOf(row.tolerance));
    return say('page.sources.within', { n: say(`page.sources.unit.${row.unit === 'direction' ? 'deg' : row.unit}`, { n }) });
  };
  return {
    id: row.id,
    what: row.what,
    expected: inWords(row.expected, row.unit, own, say),
    within: exact ? say('page.sources.exact') : within(),
    actual: inWords(row.actual, row.unit, borne, say),
    mark: say(`page.sources.mark.${row.mark}`),
    source: row.source,
    result: say(row.ok ? 'page.sources.agrees' : 'page.sources.differs'),
    ok: row.ok,
  };
}

/** @param {Table[]} tables @param {Say} say @returns {Section[]} */
export const sectionsOf = (tables, say) => tables.map(({ id, title, rows }) =>
  ({ id, title, lines: rows.map((row) => lineOf(row, say)) }));

/** How many checks bear each mark, in the order of MARKS. @param {Table[]} tables @param {Say} say */
export const countsOf = (tables, say) => MARKS.map((mark) => ({
  name: say(`page.sources.mark.${mark}`),
  meaning: say(`page.sources.mark.${mark}.means`),
  n: tables.flatMap(({ rows }) => rows).filter((row) => row.mark === mark).length,
}));

/** How many checks there are, and whether they agree. @param {Table[]} tables @param {Say} say */
export function totalOf(tables, say) {
  const rows = tables.flatMap((table) => table.rows);
  const bad = rows.filter((row) => !row.ok).length;
  if (bad === 0) return say('page.sources.total.all', { n: rows.length });
  return say(`page.sources.total.${bad === 1 ? 'one' : 'some'}`, { n: rows.length, bad });
}

/** @param {string} text */
const cell = (text) => text.replace(/[\\|*_<`]/g, '\\$&');

/** docs/sources.md. @param {Table[]} tables @param {Say} say */
export function markdown(tables, say) {
  const head = COLUMNS.map((name) => say(`page.sources.col.${name}`));
  const parts = [
    `# ${say('page.sources.title')}`,
    `<!-- ${say('page.sources.made')} -->`,
    `**${say('page.caution')}**`,
    say('page.sources.intro'),
    say('page.sources.figures'),
    totalOf(tables, say),
    `## ${say('page.sources.marks')}`,
    countsOf(tables, say).map(({ name, meaning, n }) =>
      `- **${name}** (${counted(say, 'page.sources.checks', n)}): ${meaning}`).join('\n'),
  ];
  for (const { title, lines } of sectionsOf(tables, say)) {
    parts.push(`## ${title}`, [
      `| ${head.join(' | ')} |`,
      `| ${head.map(() => '---').join(' | ')} |`,
      ...lines.map((line) => `| ${COLUMNS.map((name) => cell(line[name])).join(' | ')} |`),
    ].join('\n'));
  }
  return `${parts.join('\n\n')}\n`;
}

/** Leaves a file alone that says it already. @param {string} file @param {string} text */
export function writeIfChanged(file, text) {
  if (existsSync(file) && readFileSync(file, 'utf8') === text) return;
  writeFileSync(file, text);
}

/** Where a file first differs. @param {string} wanted @param {string} there */
function firstDifference(wanted, there) {
  const [a, b] = [wanted.split('\n'), there.split('\n')];
  let at = 0;
  while (a[at] === b[at]) ++at;
  return `line ${at + 1}\n  is: ${b[at] ?? 'not there'}\n  wanted: ${a[at] ?? 'nothing'}`;
}

function main() {
  const { values: { program, check, write } } = parseArgs({
    options: { program: { type: 'string' }, check: { type: 'string' }, write: { type: 'string' } },
  });
  const file = check ?? write;
  if (!program || !file) throw new Error('--program and one of --check and --write are needed');
  const text = markdown(tablesOf(program), sayer(catalogue()));
  if (write) return writeIfChanged(write, text);
  const there = existsSync(file) ? readFileSync(file, 'utf8') : '';
  if (there === text) return;
  console.error(`${file} is not what the tables say (./web/serve.sh --build-only writes it anew): ${firstDifference(text, there)}`);
  process.exitCode = 1;
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) main();
