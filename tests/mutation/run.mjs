// Makes small mistakes in core/, one at a time, and looks whether the native tests notice.
// Works in a copy of its own, build/mutation/, so the checkout stays as it is.
//   node tests/mutation/run.mjs [--count 100] [--seed 1] [--start 0] [--only plan] [--report FILE] [--beside N] [--again] [--quick]
// A mistake is drawn by the seed: first a line of core/ where one can be made, then one of those
// it allows. --again tries what survived before, with the tests as they are now. --beside 1 takes a
// share of a run that is going on already, with another --start. With --quick the slow tests are left
// out, and what survives the others may yet be noticed by them. The tests of the file's own subject run first, then the quick ones, then all others.
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFileSync, cpSync, existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { mutantsOf, mutated, randomFrom, wilson } from './mutants.mjs';

const project = resolve(fileURLToPath(new URL('../..', import.meta.url)));
const { values: options } = parseArgs({
  options: {
    count: { type: 'string', default: '100' }, seed: { type: 'string', default: '1' }, start: { type: 'string', default: '0' },
    only: { type: 'string', default: '' }, report: { type: 'string', default: join(project, 'build/mutation/report.md') },
    beside: { type: 'string', default: '' }, again: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
  },
});
const [count, seed, start] = [options.count, options.seed, options.start].map(Number);
if (![count, seed, start].every(Number.isInteger)) throw new Error('--count, --seed and --start want whole numbers');

const place = join(project, 'build/mutation');
const tree = join(place, 'tree');
const built = join(place, 'native');
/** Where this run makes its mistakes: in the copy, or in a copy of that. */
const own = options.beside ? `${tree}-${options.beside}` : tree;
const work = join(place, `mutant${options.beside}`);

/** @typedef {{directory: string, command: string, file: string, output: string}} Command */
/** @typedef {'killed' | 'survived' | 'the same' | 'refused'} Fate */
/** @typedef {{n: number, file: string, line: number, kind: string, before: string, after: string, fate: Fate, by: string, seconds: number}} Result */

// --- the copy, built as it is ------------------------------------------------------------------

mkdirSync(place, { recursive: true });
rmSync(own, { recursive: true, force: true }); // a run that was stopped leaves its mistake behind
mkdirSync(own);
for (const name of ['CMakeLists.txt', 'core', 'web', 'assets', 'tests']) {
  cpSync(join(project, name), join(own, name), { recursive: true, preserveTimestamps: true, filter: (file) => !/node_modules|tests\/(browser|mutation)\//.test(file) });
}
symlinkSync(join(project, '.cache'), join(own, '.cache'));
if (!options.beside) {
  if (!existsSync(join(built, 'build.ninja'))) {
    execFileSync('cmake', ['-S', tree, '-B', built, '-G', 'Ninja', '-DCMAKE_BUILD_TYPE=Release', '-DCMAKE_EXPORT_COMPILE_COMMANDS=ON'], { stdio: ['ignore', 'ignore', 'inherit'] });
  }
  execFileSync('ninja', ['-C', built, '--quiet', 'core_tests'], { stdio: 'inherit' });
}

const commands = /** @type {Command[]} */ (JSON.parse(readFileSync(join(built, 'compile_commands.json'), 'utf8')))
  .map((one) => ({ ...one, output: / -o (\S+)/.exec(one.command)?.[1] ?? '' }))
  .filter(({ output }) => /CMakeFiles\/(?:core|session|core_tests)\.dir/.test(output));
/** @type {Record<string, string[]>} What each object was made of, of this copy. */
const madeOf = {};
let object = '';
for (const line of execFileSync('ninja', ['-C', built, '-t', 'deps'], { encoding: 'utf8', maxBuffer: 1 << 28 }).split('\n')) {
  if (/^\S+: #deps/.test(line)) {
    object = line.slice(0, line.indexOf(':'));
    madeOf[object] = [];
  } else if (line.startsWith('    ') && line.includes(tree)) madeOf[object].push(line.trim());
}
const link = execFileSync('ninja', ['-C', built, '-t', 'commands', 'core_tests'], { encoding: 'utf8', maxBuffer: 1 << 28 }).trim().split('\n').at(-1) ?? '';

/** @param {string} command @param {string} [from] @param {number} [ms] */
function run(command, from = built, ms = 0) {
  const ended = spawnSync('bash', ['-c', `exec ${command}`], { cwd: from, encoding: 'utf8', maxBuffer: 1 << 26, ...(ms ? { timeout: ms, killSignal: 'SIGKILL' } : {}) });
  return { well: ended.status === 0, late: ended.signal === 'SIGKILL', said: `${ended.stdout}${ended.stderr}` };
}

// --- the tests, with the time that each takes --------------------------------------------------

const times = join(place, 'times.xml');
if (!existsSync(times) || statSync(times).mtimeMs < statSync(join(built, 'core_tests')).mtimeMs) {
  console.log('Running all tests once, as the copy is ...');
  const whole = run(`./core_tests --reporter xml::out=${times}.new --durations yes`);
  if (!whole.well) throw new Error(`the tests fail without any mistake:\n${whole.said.slice(-2000)}`);
  renameSync(`${times}.new`, times);
}
const entities = /** @type {Record<string, string>} */ ({ lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' });
const cases = [...readFileSync(times, 'utf8').matchAll(/<TestCase name="([^"]*)"[^>]*filename="([^"]*)"[^>]*>[^]*?<OverallResult success="true"[^>]*durationInSeconds="([\d.e+-]+)"/g)]
  .map(([, name, file, seconds]) => ({ name: name.replace(/&(\w+);/g, (_, e) => entities[e]), file: basename(file, '.cpp'), seconds: Number(seconds) }));
const total = cases.reduce((sum, one) => sum + one.seconds, 0);
console.log(`${cases.length} tests, ${total.toFixed(0)} s`);
const QUICK_S = 0.1;

/** Those that know a file best: they are named after it or include it. @param {string} stem */
function ownTests(stem) {
  const parts = stem.split('_');
  return new Set(cases.map((one) => one.file).filter((file) => {
    const name = file.replace(/_test$/, '');
    return name === stem || name.startsWith(`${stem}_`) || (parts.length > 1 && name === parts[0])
      || readFileSync(join(tree, 'tests', `${file}.cpp`), 'utf8').includes(`"core/${stem}.h"`);
  }));
}

/** The tests in the order of their promise, as files of names. @param {string} stem */
function stages(stem) {
  const named = ownTests(stem);
  const first = cases.filter((one) => named.has(one.file) && one.seconds < 2);
  const rest = cases.filter((one) => !first.includes(one));
  return [first, rest.filter((one) => one.seconds < QUICK_S), options.quick ? [] : rest.filter((one) => one.seconds >= QUICK_S)]
    .filter((some) => some.length).map((some, i) => {
      const list = join(work, `stage-${i}.txt`);
      writeFileSync(list, some.map((one) => `"${one.name.replace(/([\\",])/g, '\\$1')}"\n`).join(''));
      return { list, tests: some.length, limit_ms: Math.ceil(some.reduce((sum, one) => sum + one.seconds, 0) * 10 + 30) * 1000 };
    });
}

// --- one mistake ---------------------------------------------------------------------------------

/** @param {string} file */
const hash = (file) => createHash('sha256').update(readFileSync(file)).digest('hex');

/** Object code of the file as it is changed now. @param {Command} command @param {string} out */
const compile = (command, out) => run(`${command.command.replaceAll(`-I${tree} `, `-I${own} `).replace(` -c ${tree}/`, ` -c ${own}/`).replace(/ -o \S+/, ` -o ${out}`).replace(/ -M[DFT](?: \S+\.d| \S+\.o)?/g, '').replaceAll(' -Werror', ' -w')}`, command.directory);

/** @param {string} file Below the copy. @returns {{fate: Fate, by: string}} */
function tried(file) {
  rmSync(work, { recursive: true, force: true });
  mkdirSync(work);
  const path = join(tree, file);
  /** @type {string[]} */
  const changed = [];
  let command_line = link;
  // A changed header is in many objects; the core's come first, since most mistakes end there.
  const concerned = commands.filter((one) => one.file === path || madeOf[one.output]?.includes(path));
  if (concerned.length === 0) return { fate: 'refused', by: 'nobody: no object has this file' };
  for (const command of concerned) {
    const out = join(work, `${changed.length}-${basename(command.output)}`);
    const made = compile(command, out);
    if (!made.well) return /static assertion failed|static_assert/.test(made.said) ? { fate: 'killed', by: 'the compiler, by a static_assert' } : { fate: 'refused', by: 'the compiler' };
    if (hash(out) === hash(join(built, command.output))) {
      rmSync(out);
      continue;
    }
    changed.push(out);
    if (command_line.includes(` ${command.output} `)) command_line = command_line.replace(` ${command.output} `, ` ${out} `);
    else command_line = command_line.replace(/ -o core_tests /, ` ${out} -o core_tests `); // before the library that has it too
  }
  if (changed.length === 0) return { fate: 'the same', by: '' };
  const program = join(work, 'core_tests');
  const linked = run(command_line.replace(/^: && | && :$/g, '').replace(' -o core_tests ', ` -o ${program} `));
  if (!linked.well) return { fate: 'refused', by: `the linker: ${linked.said.slice(-200)}` };
  for (const { list, limit_ms } of stages(basename(file).replace(/\.\w+$/, ''))) {
    const ended = run(`${program} --abort --input-file ${list} --colour-mode none`, built, limit_ms);
    if (ended.late) return { fate: 'killed', by: 'the time limit' };
    if (!ended.well) return { fate: 'killed', by: /^([^\n]+)\n-{20,}\n\S+:\d+\n\.{20,}/m.exec(ended.said)?.[1].trim() ?? 'a crash' };
  }
  return { fate: 'survived', by: options.quick ? 'the slow tests were not run' : '' };
}

/** That the tests are found and pass, before what fails is taken for a mistake noticed. */
function tryUnchanged() {
  rmSync(work, { recursive: true, force: true });
  mkdirSync(work);
  for (const { list, tests } of stages('plan').slice(0, 2)) {
    const ended = run(`./core_tests --abort --input-file ${list} --colour-mode none`);
    const passed = Number(/All tests passed \(\d+ assertions? in (\d+) test case/.exec(ended.said)?.[1]);
    if (!ended.well || passed !== tests) throw new Error(`${tests} tests were to pass without any mistake:\n${ended.said.slice(-2000)}`);
  }
}

// --- all of them -----------------------------------------------------------------------------------

const files = readdirSync(join(own, 'core')).filter((name) => /\.(?:cpp|h)$/.test(name) && name.startsWith(options.only)).sort().map((name) => `core/${name}`);
/** As they are when the run begins: the checkout may go on changing. @type {Map<string, string>} */
const texts = new Map(files.map((file) => [file, readFileSync(join(own, file), 'utf8')]));
/** @type {{file: string, choices: import('./mutants.mjs').Mutant[]}[]} */
const lines = files.flatMap((file) => {
  /** @type {Map<number, import('./mutants.mjs').Mutant[]>} */
  const byLine = new Map();
  for (const mutant of mutantsOf(texts.get(file) ?? '')) byLine.set(mutant.line, [...(byLine.get(mutant.line) ?? []), mutant]);
  return [...byLine.values()].map((choices) => ({ file, choices }));
});

tryUnchanged();
const random = randomFrom(seed);
const log = join(place, `results-seed-${seed}${options.only && `-${options.only}`}.jsonl`);
/** Makes the mistake, looks what becomes of it, and writes that down. @param {number} n @param {string} file @param {number} line @param {string} kind @param {string} changed */
function take(n, file, line, kind, changed) {
  const path = join(own, file);
  const text = texts.get(file) ?? '';
  const begin = Date.now();
  writeFileSync(path, changed);
  const { fate, by } = tried(file);
  writeFileSync(path, text);
  /** @type {Result} */
  const result = { n, file, line: line + 1, kind, before: text.split('\n')[line].trim(), after: changed.split('\n')[line].trim(), fate, by, seconds: Math.round((Date.now() - begin) / 1000) };
  appendFileSync(log, `${JSON.stringify(result)}\n`);
  console.log(`${n} ${file}:${result.line} ${fate}${by && `: ${by}`} (${result.seconds} s)${fate === 'survived' ? `\n  - ${result.before}\n  + ${result.after}` : ''}`);
}

/** What was written down, the newest of each. @returns {Result[]} */
const results = () => [...new Map(readFileSync(log, 'utf8').trim().split('\n').map((line) => {
  const result = /** @type {Result} */ (JSON.parse(line));
  return /** @type {[number, Result]} */ ([result.n, result]);
})).values()];

/** The line of a text that was at a place once, or -1. @param {string[]} all @param {number} at @param {string} trimmed */
function lineNow(all, at, trimmed) {
  const places = all.flatMap((line, i) => (line.trim() === trimmed ? [i] : []));
  return places.reduce((best, i) => (best < 0 || Math.abs(i - at) < Math.abs(best - at) ? i : best), -1);
}

if (options.again) {
  for (const { n, file, line, kind, before, after } of results().filter(({ fate }) => fate === 'survived')) {
    const all = (texts.get(file) ?? '').split('\n');
    const at = lineNow(all, line - 1, before);
    if (at < 0) console.log(`${n} ${file}:${line} is no longer there: ${before}`);
    else take(n, file, at, kind, all.map((one, i) => (i === at ? one.replace(before, () => after) : one)).join('\n'));
  }
} else {
  /** @type {Set<string>} */
  const drawn = new Set();
  console.log(`${lines.length} lines of ${files.length} files can be mistaken`);
  for (let n = 0; n < start + count && drawn.size < lines.reduce((sum, { choices }) => sum + choices.length, 0);) {
    const { file, choices } = lines[Math.floor(random() * lines.length)];
    const mutant = choices[Math.floor(random() * choices.length)];
    const key = `${file} ${mutant.line} ${mutant.from} ${mutant.by}`;
    if (drawn.has(key)) continue;
    drawn.add(key);
    n += 1;
    if (n > start) take(n, file, mutant.line, mutant.kind, mutated(texts.get(file) ?? '', mutant));
  }
}

// --- what came of it ------------------------------------------------------------------------------

const all = results();
/** @param {Fate} fate @param {Result[]} [of] */
const counted = (fate, of = all) => of.filter((result) => result.fate === fate).length;
const [killed, survived] = [counted('killed'), counted('survived')];
const [low, high] = wilson(killed, killed + survived);
const percent = (/** @type {number} */ share) => `${(100 * share).toFixed(1)} %`;
const summary = `Seed ${seed}: ${killed} of ${killed + survived} killed, ${percent(killed / (killed + survived))} (95 % interval ${percent(low)} to ${percent(high)}); `
  + `${counted('the same')} the same object code, ${counted('refused')} refused by the compiler, neither counted.`;
const table = [...new Set(all.map((result) => result.file))].sort().map((file) => {
  const of = all.filter((result) => result.file === file);
  return `| ${file} | ${counted('killed', of)} | ${counted('survived', of)} | ${counted('the same', of) + counted('refused', of)} |`;
});
const survivors = all.filter((result) => result.fate === 'survived').map((result) => `${result.file}:${result.line} (${result.kind}, no. ${result.n})\n- ${result.before}\n+ ${result.after}\n`);
writeFileSync(options.report, `${summary}\n\n| file | killed | survived | not counted |\n| --- | --- | --- | --- |\n${table.join('\n')}\n\n\`\`\`diff\n${survivors.join('\n')}\`\`\`\n`);
console.log(`\n${summary}\nThe report: ${options.report}`);
