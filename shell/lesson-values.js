// Numbers in the texts of a lesson: placeholders such as {rollout.cross_nm|nm}, filled from what
// the core says of the step's scene. A placeholder that cannot be filled throws, and the build
// and the tests fill them all.
import { clock, direction, known, miles, whole } from './format.js';
import { missKind } from './outcome-markup.js';

/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./outcome-markup.js').Say} Say */
/** @typedef {Record<string, Evaluation>} Reports By name; '' is the step's own scene. */

/** What names one of several in a list, where its place does not. Labels are words, which another language has otherwise. */
const NAMES = ['id', 'name', 'kind'];

/** @param {unknown} value @param {string} key @returns {unknown} */
function member(value, key) {
  if (Array.isArray(value)) {
    if (/^\d+$/.test(key)) return value[Number(key)];
    return value.find((item) => NAMES.some((name) => item?.[name] === key));
  }
  return typeof value === 'object' && value !== null && Object.hasOwn(value, key)
    ? /** @type {Record<string, unknown>} */ (value)[key] : undefined;
}

/**
 * What stands at a path: `wind.inbound.wca_deg`, `laps.0.cross_nm`, `plans.drift-once.cross_nm`,
 * in a second scene `windy:rollout.cross_nm`.
 * @param {Reports} reports @param {string} path
 * @returns {string | number | boolean} Throws where there is none.
 */
export function valueAt(reports, path) {
  const [, scene = '', way] = /^(?:([\w-]+):)?(.*)$/.exec(path) ?? [];
  if (!Object.hasOwn(reports, scene)) throw new Error(`${path}: there is no scene “${scene}”`);
  /** @type {unknown} */
  let value = reports[scene];
  for (const key of way.split('.')) value = member(value, key);
  if (typeof value === 'string' || typeof value === 'boolean' || known(/** @type {any} */ (value))) {
    return /** @type {string | number | boolean} */ (value);
  }
  throw new Error(`${path}: the core gives no such value for this scene`);
}

/** In (−180, 180]. @param {number} deg */
export const turned = (deg) => {
  const by = ((deg % 360) + 360) % 360;
  return by > 180 ? by - 360 : by;
};

/** @param {unknown} value */
function number(value) {
  if (typeof value !== 'number') throw new Error(`“${value}” is not a number`);
  return value;
}

/** @param {unknown} value */
function text(value) {
  if (typeof value !== 'string' || value === '') throw new Error(`“${value}” is not a text`);
  return value;
}

/** @param {string} said @param {string} n From 1. */
function sentence(said, n) {
  const found = said.split(/(?<=[.!?][\]”’)]*) /)[Number(n) - 1];
  if (!found) throw new Error(`“${said}” has no sentence ${n}`);
  return found;
}

/**
 * @typedef {object} Told What a format is given.
 * @property {Say} say
 * @property {Evaluation} report Of the scene that the value is of.
 */

/** @param {number} deg @param {Told} told */
const offOutbound = (deg, { report }) =>
  Math.abs(turned(deg - number(/** @type {any} */ (report).scenario.inbound) - 180));

/** How values are put in words; docs/lesson.md lists them. @type {Record<string, (value: unknown, told: Told) => string>} */
export const FORMATS = {
  nm: (v, { say }) => say('page.lesson.nm', { nm: miles(number(v)) }),
  miss: (v, { say }) => say(`page.lesson.miss.${missKind(number(v))}`, { nm: miles(number(v)) }),
  deg: (v) => `${whole(number(v))}°`,
  heading: (v) => `${direction(number(v))}°`,
  reciprocal: (v) => `${direction(number(v) + 180)}°`,
  'off-outbound': (v, told) => `${whole(offOutbound(number(v), told))}°`,
  'off-outbound.1': (v, told) => `${offOutbound(number(v), told).toFixed(1)}°`,
  turn: (v, { say }) => say(`page.drift.${number(v) < 0 ? 'left' : 'right'}`, { deg: whole(number(v)) }),
  time: (v) => clock(number(v)),
  kt: (v, { say }) => say('page.lesson.kt', { kt: whole(number(v)) }),
  times: (v, { say }) => say('page.lesson.times', { n: number(v).toFixed(1) }),
  wind: (v, { say }) => {
    const [from, kt] = text(v).split('/').map(Number);
    return say('page.lesson.wind', { from: direction(from), kt: whole(kt) });
  },
  word: (v, { say }) => say(`page.lesson.word.${text(v)}`),
  text: (v) => text(v),
  'sentence-1': (v) => sentence(text(v), '1'),
  'sentence-2': (v) => sentence(text(v), '2'),
  'sentence-3': (v) => sentence(text(v), '3'),
};

/** A value in words. @param {Reports} reports @param {string} path @param {string} format @param {Say} say */
export function told(reports, path, format, say) {
  if (!Object.hasOwn(FORMATS, format)) throw new Error(`${path}: there is no format “${format}”`);
  const value = valueAt(reports, path);
  const scene = /^([\w-]+):/.exec(path)?.[1] ?? '';
  try {
    return FORMATS[format](value, { say, report: reports[scene] });
  } catch (error) {
    throw new Error(`${path}|${format}: ${error instanceof Error ? error.message : error}`);
  }
}

/** @param {string} words @param {Reports} reports @param {Say} say */
export const fill = (words, reports, say) => words.replace(/\{([^{}]*)\}/g, (whole_, inside) => {
  const [path, format, more] = inside.split('|');
  if (!format || more !== undefined) throw new Error(`${whole_}: a path, a bar and a format are wanted`);
  return told(reports, path, format, say);
});
