// A step of a lesson: its scenes, and which answer is right. What is right is what the core says
// of the scene; no lesson file has an answer in it.
import { fill, told, turned, valueAt } from './lesson-values.js';

/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./outcome-markup.js').Say} Say */
/** @typedef {import('./lesson-values.js').Reports} Reports */

/**
 * @typedef {object} Option Right from `from` up to but not including `to` (an end that is not
 *   given is open; from a larger to a smaller one it goes through north), or where the value
 *   `is` that text.
 * @property {string} text
 * @property {string} [value] Its own path, else the prediction's.
 * @property {number} [from] @property {number} [to] @property {string} [is]
 * @property {string} [scene] Flown beside the right one where it was chosen.
 */
/**
 * @typedef {object} Prediction
 * @property {'choice' | 'nearest' | 'number'} kind nearest: the option whose value is nearest to 0.
 * @property {string} ask
 * @property {string} [value] Path of the value that decides.
 * @property {Option[]} [options]
 * @property {string} [format] Of a number: how it is written.
 * @property {number} [tolerance]
 * @property {'heading'} [beside] The key of the scene that the person's number is flown with.
 */
/**
 * @typedef {object} Step
 * @property {string} id @property {string} title
 * @property {string} scene Link text. @property {Record<string, string>} [scenes] Others, by name.
 * @property {string[]} [layers] On once it is flown; those of the plans are off else.
 * @property {{scene: string, label: string}} [beside] A second flight, once it is flown.
 * @property {string[]} text @property {Prediction} predict
 * @property {string[]} observe @property {string[]} why
 */
/** @typedef {{format: number, id: string, lang: string, title: string, about: string, steps: Step[]}} Lesson */

/** Formats of a number that a person can type, with the least and the most. */
const TYPED = /** @type {Record<string, [least: number, most: number]>} */ ({
  heading: [0, 360], deg: [0, 180], time: [0, 1200], nm: [0, 50], kt: [0, 400],
});

/** What the core says of all scenes of a step. @param {Step} step @param {(link: string) => Evaluation} evaluate @returns {Reports} */
export const reportsOf = (step, evaluate) => Object.fromEntries(
  [['', step.scene], ...Object.entries(step.scenes ?? {})].map(([name, link]) => [name, evaluate(link)]));

/** @param {Option} option @param {string | number | boolean} value */
function within(option, value) {
  if (option.is !== undefined) return value === option.is;
  if (typeof value !== 'number') return false;
  const { from = -Infinity, to = Infinity } = option;
  return from <= to ? value >= from && value < to : value >= from || value < to;
}

/** Places of the options that are right: one, or the lesson is at fault. @param {Prediction} predict @param {Reports} reports */
export function rightOptions({ kind, value, options = [] }, reports) {
  const values = options.map((option) => valueAt(reports, option.value ?? value ?? ''));
  if (kind === 'choice') return options.flatMap((option, i) => (within(option, values[i]) ? [i] : []));
  const off = values.map((v) => Math.abs(Number(v)));
  const least = Math.min(...off);
  return off.flatMap((v, i) => (v === least ? [i] : []));
}

/** A number as a person types it: comma or point, m:ss, units and signs left away. @param {string} typed @param {string} format */
export function readNumber(typed, format) {
  const plain = typed.trim().replace(/,/g, '.').replace(/\s*(°|NM|kt|s)$/i, '');
  const clock = format === 'time' ? /^(\d{1,2}):([0-5]\d)$/.exec(plain) : null;
  const number = clock ? Number(clock[1]) * 60 + Number(clock[2]) : /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : NaN;
  const [least, most] = TYPED[format];
  return number >= least && number <= most ? number : null;
}

/** @param {Prediction} predict */
export const isTyped = ({ format = '' }) => Object.hasOwn(TYPED, format);

/**
 * The right answer in words. @param {Prediction} predict @param {Reports} reports @param {Say} say
 */
export function rightAnswer(predict, reports, say) {
  if (predict.kind === 'number') return told(reports, predict.value ?? '', predict.format ?? '', say);
  return fill(predict.options?.[rightOptions(predict, reports)[0]]?.text ?? '', reports, say);
}

/**
 * Whether an answer is right, and what is flown beside the right one if it is not.
 * @param {Step} step @param {Reports} reports
 * @param {number} answer Place of the option, or the number.
 * @returns {{right: boolean, link: string}} link: empty where nothing is flown for it
 */
export function judged({ predict, scene }, reports, answer) {
  if (predict.kind !== 'number') {
    const right = rightOptions(predict, reports).includes(answer);
    return { right, link: right ? '' : predict.options?.[answer]?.scene ?? '' };
  }
  const off = answer - Number(valueAt(reports, predict.value ?? ''));
  const right = Math.abs(predict.format === 'heading' ? turned(off) : off) <= (predict.tolerance ?? 0);
  return { right, link: !right && predict.beside ? `${scene}&${predict.beside}=${answer}`.replace(/^&/, '') : '' };
}
