// The lesson's file: its schema, its placeholders, one right answer a step; and that each of the
// faults that are looked for is found.
import assert from 'node:assert/strict';
import { copyFile, mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import Ajv from 'ajv/dist/2020.js';
import { catalogue, sayer } from '../../web/catalogue.mjs';
import { SITE, coreInNode } from './lesson.mjs';

/** @typedef {import('../../shell/lesson-steps.js').Lesson} Lesson */
/** @typedef {import('../../shell/lesson-steps.js').Step} Step */

const project = fileURLToPath(new URL('../..', import.meta.url));
const assets = join(project, 'assets/lesson');

// Node takes .js files for modules only under a package.json that says so.
const folder = await mkdtemp(join(tmpdir(), 'lesson-'));
after(() => rm(folder, { recursive: true }));
await writeFile(join(folder, 'package.json'), '{"type": "module"}\n');
for (const name of await readdir(join(project, 'shell'))) if (/\.m?js$/.test(name)) await copyFile(join(project, 'shell', name), join(folder, name));
/** @param {string} name */
const load = (name) => import(pathToFileURL(join(folder, name)).href);
/** @type {typeof import('../../shell/lesson-steps.js')} */
const steps = await load('lesson-steps.js');
/** @type {typeof import('../../shell/lesson-values.js')} */
const values = await load('lesson-values.js');
/** @type {typeof import('../../shell/lesson-check.mjs')} */
const check = await load('lesson-check.mjs');

/** @param {string} name */
const json = async (name) => JSON.parse(await readFile(join(assets, name), 'utf8'));
const files = (await readdir(assets)).filter((name) => /^entry\..*\.json$/.test(name));
/** @type {Lesson} */
const english = await json('entry.en.json');
const core = await coreInNode();
const say = sayer(catalogue());
const valid = new Ajv({ allErrors: true }).compile(await json('lesson.schema.json'));

test('there is an English lesson of nine or ten steps, in the order of their ideas', () => {
  assert.ok(files.includes('entry.en.json'));
  assert.deepEqual(english.steps.map(({ id }) => id),
    ['join', 'side', 'round-number', 'first-leg', 'turn', 'how-much', 'time', 'read-the-miss', 'laps', 'sector']);
});

for (const name of files) {
  test(`${name} is what the schema asks for`, async () => {
    assert.ok(valid(await json(name)), JSON.stringify(valid.errors, null, 1));
  });

  test(`${name}: scenes, numbers, one right answer each, short texts`, async () => {
    const lesson = await json(name);
    assert.equal(lesson.lang, name.split('.')[1]);
    assert.deepEqual(check.faultsOf(lesson, core, say), []);
  });
}

test('the site has the lesson as a module', async () => {
  const text = await readFile(join(SITE, 'lesson-entry.js'), 'utf8');
  assert.deepEqual(JSON.parse(text.replace(/^export default /, '').replace(/;\s*$/, '')), english);
});

for (const step of english.steps) {
  test(`${step.id}: its answer is right, and any other is not`, () => {
    const reports = steps.reportsOf(step, core.evaluate);
    const { predict } = step;
    if (predict.kind !== 'number') {
      const verdicts = (predict.options ?? []).map((_, i) => steps.judged(step, reports, i).right);
      assert.equal(verdicts.filter(Boolean).length, 1, `${verdicts}`);
      return;
    }
    const value = Number(values.valueAt(reports, predict.value ?? ''));
    const within = Number(predict.tolerance);
    for (const [off, right] of /** @type {[number, boolean][]} */ ([[0, true], [within * 0.99, true], [-within * 0.99, true],
      [within * 1.01, false], [-within * 1.01, false], [180, false]])) {
      assert.equal(steps.judged(step, reports, (value + off + 360) % 360).right, right, `${off} off`);
    }
    // The whole degrees that a person would type.
    assert.ok(steps.judged(step, reports, Math.round(value)).right);
  });
}

test('a wrong heading is flown, and its link flies that heading', () => {
  for (const step of english.steps.filter(({ predict }) => predict.beside)) {
    const reports = steps.reportsOf(step, core.evaluate);
    const { right, link } = steps.judged(step, reports, 200);
    assert.equal(right, false);
    assert.equal(core.evaluate(link).entry?.heading_deg, 200, link);
    assert.equal(core.evaluate(link).fields.wind, reports[''].fields.wind, 'all else is the step’s scene');
    const answer = Number(values.valueAt(reports, step.predict.value ?? ''));
    assert.equal(steps.judged(step, reports, answer).link, '', 'the right one is not flown twice');
  }
});

test('an option with a scene flies what it says', () => {
  for (const step of english.steps) {
    for (const option of step.predict.options ?? []) {
      if (option.scene === undefined || step.predict.kind !== 'nearest') continue;
      const reports = steps.reportsOf(step, core.evaluate);
      assert.equal(core.evaluate(option.scene).rollout?.cross_nm, values.valueAt(reports, option.value ?? ''), option.text);
    }
  }
});

// --- the facts that the texts state outside a placeholder, from docs/theory.md ---

test('in still air and with no turn at the fix the exact angle is 2·atan(1/π), as derived in docs/theory.md', () => {
  const step = /** @type {Step} */ (english.steps.find(({ id }) => id === 'round-number'));
  const reports = steps.reportsOf(step, core.evaluate);
  const derived = (2 * Math.atan(1 / Math.PI) * 180) / Math.PI;
  const heading = Number(values.valueAt(reports, 'aligned:exact.heading_for_time.heading_deg'));
  assert.ok(Math.abs(heading - 58 - derived) < 0.01, `${heading - 58} against ${derived}`);
  assert.equal(values.fill('{aligned:exact.heading_for_time.heading_deg|off-outbound.1}', reports, say), `${derived.toFixed(1)}°`);
  assert.ok(Number(values.valueAt(reports, 'rollout.cross_nm')) < 0, 'and 30° is past');
});

test('two turns of a lap take two minutes at standard rate, its straight leg about one', () => {
  const events = core.evaluate('laps=2').events;
  const lap = events.filter((event) => /** @type {any} */ (event).lap === 1);
  const at = Object.fromEntries(lap.map((event) => [event.name, event.at_s]));
  const over_fix_s = Math.max(...events.filter(({ name, at_s }) => name === 'fix' && at_s < at.level).map(({ at_s }) => at_s));
  const turns_s = at.level - over_fix_s + at['roll-out'] - at['time-up'];
  const straight_s = at['time-up'] - at.level;
  assert.ok(Math.abs(turns_s - 120) < 0.5, `${turns_s}`);
  assert.ok(straight_s > 50 && straight_s < 75, `${straight_s}`);
});

// --- faults are found ---

/** The lesson with one step changed. @param {string} id @param {(step: any) => void} change @returns {Lesson} */
function changed(id, change) {
  const lesson = structuredClone(english);
  change(lesson.steps.find((step) => step.id === id));
  return lesson;
}

/** @type {[what: string, id: string, change: (step: any) => void, says: RegExp][]} */
const FAULTS = [
  ['an unknown format', 'join', (s) => s.text.push('{rollout.cross_nm|furlongs}'), /join: .*no format “furlongs”/],
  ['no format', 'join', (s) => s.text.push('{rollout.cross_nm}'), /a path, a bar and a format/],
  ['a path that leads nowhere', 'join', (s) => s.why.push('{rollout.cross|nm}'), /rollout\.cross: the core gives no such value/],
  ['an answer that is null', 'join', (s) => s.why.push('{laps.0.cross_nm|nm}'), /laps\.0\.cross_nm: the core gives no such value/],
  ['a format that does not fit', 'join', (s) => s.why.push('{headline|nm}'), /headline\|nm: .*is not a number/],
  ['an unknown scene', 'turn', (s) => s.why.push('{nowhere:rollout.cross_nm|nm}'), /no scene “nowhere”/],
  ['a scene that nothing uses', 'join', (s) => { s.scenes = { idle: 'wind=0/0' }; }, /“idle” is not used/],
  ['a scene with a mistake', 'join', (s) => { s.scene = 'wind=0/0&inbound=400'; }, /scene “”, inbound: /],
  ['a layer that is not', 'join', (s) => { s.layers = ['clouds']; }, /no layer “clouds”/],
  ['a second flight of no scene', 'join', (s) => { s.beside = { scene: 'gone', label: 'x' }; }, /beside: there is no scene “gone”/],
  ['no option is right', 'turn', (s) => { s.predict.options[0].to = -5; }, /0 options are right/],
  ['two options are right', 'turn', (s) => { s.predict.options[1].from = -5; }, /2 options are right/],
  ['an answer at the edge', 'turn', (s) => { s.predict.options[0].to = -0.64; s.predict.options[1].from = -0.64; }, /lies at the edge -0\.64/],
  ['two nearest alike', 'how-much', (s) => { s.predict.options.pop(); }, /the two nearest differ/],
  ['a number without a value', 'side', (s) => { s.predict.value = 'rollout.nothing'; }, /rollout\.nothing/],
  ['a tolerance of nothing', 'side', (s) => { s.predict.tolerance = 0; }, /a tolerance above 0/],
  ['a lone asterisk', 'join', (s) => s.why.push('This *stands alone.'), /an asterisk/],
  ['a long text', 'join', (s) => s.text.push('word '.repeat(140).trim()), /words before the flight: 140 at most/],
  ['a long reason', 'join', (s) => s.why.push('word '.repeat(120).trim()), /words after the flight: 120 at most/],
  ['one id twice', 'join', (s) => { s.id = 'side'; }, /^side: two steps/],
];

for (const [what, id, change, says] of FAULTS) {
  test(`found: ${what}`, () => {
    const faults = check.faultsOf(changed(id, change), core, say);
    assert.ok(faults.some((text) => says.test(text)), faults.join('\n') || 'nothing was found');
  });
}

/** @type {[what: string, change: (lesson: any) => void][]} */
const AGAINST_SCHEMA = [
  ['an answer stored', (l) => { l.steps[0].predict.answer = 2; }],
  ['a field that is not known', (l) => { l.steps[0].music = 'loud'; }],
  ['no observation', (l) => { l.steps[0].observe = []; }],
  ['five paragraphs', (l) => { l.steps[0].text = ['a', 'b', 'c', 'd', 'e']; }],
  ['one option', (l) => { l.steps[0].predict.options.length = 1; }],
  ['an option without a range', (l) => { delete l.steps[0].predict.options[0].from; delete l.steps[0].predict.options[0].to; }],
  ['a number without a tolerance', (l) => { delete l.steps[1].predict.tolerance; }],
  ['a scene that is no link', (l) => { l.steps[0].scene = 'a calm day'; }],
  ['an id with a space', (l) => { l.steps[0].id = 'the first'; }],
  ['another format', (l) => { l.format = 2; }],
];

for (const [what, change] of AGAINST_SCHEMA) {
  test(`the schema refuses ${what}`, () => {
    const lesson = structuredClone(english);
    change(lesson);
    assert.equal(valid(lesson), false);
  });
}

test('every format is documented, and every one that is documented is there', async () => {
  const doc = await readFile(join(project, 'docs/lesson.md'), 'utf8');
  const table = doc.slice(doc.indexOf('| format | of |'));
  const named = table.split('\n').filter((line) => line.startsWith('|')).slice(2)
    .flatMap((line) => [...line.split('|')[1].matchAll(/`([^`]+)`/g)].map(([, name]) => name.replace(/^-/, 'sentence-')));
  assert.deepEqual(named.sort(), Object.keys(values.FORMATS).sort());
});

test('formats in words', () => {
  const reports = { '': core.evaluate('') };
  /** @param {unknown} value @param {string} format */
  const said = (value, format) => values.FORMATS[format](value, { say, report: reports[''] }).replace(/\u00a0/g, ' ');
  /** @type {[unknown, string, string][]} */
  const cases = [[-0.675, 'nm', '0.7 NM'], [-0.675, 'miss', '0.7 NM past the inbound course'], [0.27, 'miss', '0.3 NM short of the inbound course'],
    [0.01, 'miss', 'on the inbound course'], [12.2, 'deg', '12°'], [5, 'heading', '005°'], [359.7, 'heading', '360°'], [238, 'reciprocal', '058°'],
    [93.3, 'off-outbound', '35°'], [93.31, 'off-outbound.1', '35.3°'], [22.7, 'off-outbound.1', '35.3°'], [-11.3, 'turn', '11° left'],
    [12, 'turn', '12° right'], [68, 'time', '1:08'], [103.9, 'kt', '104 kt'], [3.17, 'times', '3.2 times'], ['5/24', 'wind', '005° at 24 kt'],
    ['left', 'word', 'left'], ['As it is.', 'text', 'As it is.'], ['One. Two 0.7 NM. Three?', 'sentence-2', 'Two 0.7 NM.']];
  for (const [value, format, want] of cases) assert.equal(said(value, format), want, `${value}|${format}`);
});

test('ranges: half open, and through north', () => {
  /** @param {any} option @param {any} value */
  const holds = (option, value) => steps.rightOptions({ kind: 'choice', ask: '', value: 'v', options: [{ text: '', ...option }] },
    /** @type {any} */ ({ '': { v: value } })).length === 1;
  assert.ok(holds({ from: 1, to: 2 }, 1) && !holds({ from: 1, to: 2 }, 2));
  assert.ok(holds({ to: 2 }, -1e9) && holds({ from: 2 }, 1e9));
  assert.ok(holds({ from: 350, to: 10 }, 355) && holds({ from: 350, to: 10 }, 5) && !holds({ from: 350, to: 10 }, 10) && !holds({ from: 350, to: 10 }, 180));
  assert.ok(holds({ is: 'parallel' }, 'parallel') && !holds({ is: 'parallel' }, 'direct') && !holds({ from: 0 }, 'direct'));
});

test('numbers as people type them', () => {
  /** @type {[string, string, number | null][]} */
  const cases = [['088', 'heading', 88], [' 88° ', 'heading', 88], ['88,5', 'heading', 88.5], ['360', 'heading', 360], ['361', 'heading', null],
    ['-5', 'heading', null], ['', 'heading', null], ['north', 'heading', null], ['1:08', 'time', 68], ['68', 'time', 68], ['68 s', 'time', 68],
    ['1:75', 'time', null], ['0.7 NM', 'nm', 0.7], ['24 kt', 'kt', 24], ['1e3', 'kt', null], ['NaN', 'deg', null]];
  for (const [typed, format, want] of cases) assert.equal(steps.readNumber(typed, format), want, `“${typed}” as ${format}`);
});
