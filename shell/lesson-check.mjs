// Faults of a lesson's file that its schema cannot see: scenes that the core does not take as
// given, numbers that cannot be filled in, questions without one right answer, long texts.
// Not part of the site: the build and the tests import it in Node.
import { isTyped, reportsOf, rightOptions, rightAnswer } from './lesson-steps.js';
import { fill, valueAt } from './lesson-values.js';

/** @typedef {import('./lesson-steps.js').Lesson} Lesson */
/** @typedef {import('./lesson-steps.js').Step} Step */
/** @typedef {import('./lesson-values.js').Reports} Reports */
/** @typedef {import('./types').Core} Core */
/** @typedef {import('./outcome-markup.js').Say} Say */

/** Most words of a step: what comes before the flight, and what comes after it. */
export const MOST_WORDS = { before: 140, after: 120 };
/** An answer this near to the next one, in the unit of its value, could turn with a trifle. */
const CLEAR_BY = 0.05;

/** @param {string} text */
const wordsIn = (text) => text.split(/\s+/).filter(Boolean).length;

/** @param {string} where @param {() => unknown} work @returns {string[]} What it threw. */
function fault(where, work) {
  try {
    work();
    return [];
  } catch (error) {
    return [`${where}: ${error instanceof Error ? error.message : error}`];
  }
}

/** Scenes that the core corrects, or that no text, answer or flight uses. @param {Step} step @param {Reports} reports @param {Core} core */
function scenesOf(step, reports, core) {
  const used = JSON.stringify({ ...step, scenes: {} });
  const layers = core.session('').layers();
  return [
    ...Object.entries(reports).flatMap(([name, report]) => report.problems.map(({ key, message }) => `scene “${name}”, ${key}: ${message}`)),
    ...Object.keys(step.scenes ?? {}).filter((name) => !used.includes(`{${name}:`) && !used.includes(`"${name}:`) && step.beside?.scene !== name)
      .map((name) => `scene “${name}” is not used`),
    ...(step.beside && !Object.hasOwn(step.scenes ?? {}, step.beside.scene) ? [`beside: there is no scene “${step.beside.scene}”`] : []),
    ...(step.layers ?? []).filter((name) => !Object.hasOwn(layers, name)).map((name) => `there is no layer “${name}”`),
  ];
}

/** @param {Step} step @param {Reports} reports @param {Core} core @param {Say} say */
function predictionOf({ predict, scene }, reports, core, say) {
  /** @type {string[]} */
  const found = [];
  if (predict.kind === 'number') {
    if (typeof valueAt(reports, predict.value ?? '') !== 'number') found.push(`${predict.value} is not a number`);
    if (!isTyped(predict)) found.push(`a person cannot type the format “${predict.format}”`);
    if (!(Number(predict.tolerance) > 0)) found.push('a tolerance above 0 is wanted');
    const own = core.evaluate(`${scene}&${predict.beside ?? 'heading'}=90`.replace(/^&/, ''));
    if (predict.beside && own.problems.length) found.push(`beside: ${own.problems[0].message}`);
  } else {
    const right = rightOptions(predict, reports);
    if (right.length !== 1) found.push(`${right.length} options are right: one is wanted`);
    const options = predict.options ?? [];
    const off = options.map((option) => Math.abs(Number(valueAt(reports, option.value ?? predict.value ?? '')))).sort((a, b) => a - b);
    if (predict.kind === 'nearest' && off[1] - off[0] < CLEAR_BY) found.push(`the two nearest differ by ${off[1] - off[0]} alone`);
    for (const { from, to, value } of predict.kind === 'choice' ? options : []) {
      const at = Number(valueAt(reports, value ?? predict.value ?? ''));
      for (const end of [from, to]) if (end !== undefined && Math.abs(at - end) < CLEAR_BY) found.push(`the value ${at} lies at the edge ${end}`);
    }
    for (const option of options) {
      if (option.scene !== undefined) found.push(...core.evaluate(option.scene).problems.map(({ message }) => `${option.text}: ${message}`));
    }
  }
  rightAnswer(predict, reports, say);
  return found;
}

/** @param {Step} step @param {Reports} reports @param {Say} say */
function textsOf(step, reports, say) {
  /** @type {string[]} */
  const found = [];
  const parts = {
    before: [...step.text, step.predict.ask, ...(step.predict.options ?? []).map(({ text }) => text)],
    after: [...step.observe, ...step.why],
  };
  for (const name of /** @type {const} */ (['before', 'after'])) {
    let words = 0;
    for (const text of parts[name]) {
      found.push(...fault(`“${text.slice(0, 40)}…”`, () => { words += wordsIn(fill(text, reports, say)); }));
      if ((text.match(/\*/g) ?? []).length % 2) found.push(`“${text.slice(0, 40)}…”: an asterisk stands alone`);
    }
    if (words > MOST_WORDS[name]) found.push(`${words} words ${name} the flight: ${MOST_WORDS[name]} at most`);
  }
  return found;
}

/**
 * Every fault, one text each, with the step that has it.
 * @param {Lesson} lesson @param {Core} core @param {Say} say
 */
export function faultsOf(lesson, core, say) {
  const ids = lesson.steps.map(({ id }) => id);
  const twice = ids.filter((id, i) => ids.indexOf(id) !== i).map((id) => `${id}: two steps have this id`);
  return [...twice, ...lesson.steps.flatMap((step) => {
    const reports = reportsOf(step, core.evaluate);
    return [
      ...scenesOf(step, reports, core),
      ...textsOf(step, reports, say),
      ...fault('the prediction', () => {
        const found = predictionOf(step, reports, core, say);
        if (found.length) throw new Error(found.join('; '));
      }),
    ].map((text) => `${step.id}: ${text}`);
  })];
}
