// The table of the form's fields: one row per control, in terms of the link's keys.
// The markup is made from it at build time (field-markup.js); form.js wires it.

import { PARTS, threeDigits } from './field-parts.js';
import { clock } from './format.js';

/**
 * @typedef {object} Field
 * @property {string} id Element ids are `f-<id>`; words are `page.field.<id>`.
 * @property {string} key Link key that it sets.
 * @property {'number' | 'direction' | 'time' | 'text' | 'choice' | 'select'} kind
 * @property {string} [unit] Shown after the value.
 * @property {number} [min] Least number taken while still typing; the core has the last word.
 * @property {number} [max]
 * @property {number} [step] What the − and + buttons add (a time: seconds); none: no buttons.
 * @property {string[]} [options] Values of a choice; words are `page.field.<id>.<value>`.
 * @property {boolean} [hint] There is a word `page.field.<id>.hint`.
 * @property {boolean} [own] Filled by a rule unless the student set it; can be handed back.
 *   Words: `page.own.<id>` and `page.own.clear.<id>`.
 */

/** @type {Field[]} */
export const FIELDS = [
  { id: 'inbound', key: 'inbound', kind: 'direction', unit: '°', step: 5 },
  { id: 'arrive', key: 'arrive', kind: 'direction', unit: '°', step: 5 },
  { id: 'turns', key: 'turns', kind: 'choice', options: ['left', 'right'] },
  { id: 'leg', key: 'leg', kind: 'text', hint: true, own: true },
  { id: 'wind-from', key: 'wind', kind: 'direction', unit: '°', step: 5 },
  { id: 'wind-kt', key: 'wind', kind: 'number', unit: 'kt', min: 0, max: 150, step: 1 },
  { id: 'speed', key: 'tas', kind: 'number', unit: 'kt', min: 40, max: 350, step: 5 },
  { id: 'speed-kind', key: 'tas', kind: 'choice', options: ['ias', 'tas'] },
  { id: 'altitude', key: 'altitude', kind: 'number', unit: 'ft', min: -1000, max: 45000, step: 500 },
  { id: 'isa', key: 'isa', kind: 'number', unit: '°C', min: -60, max: 60, step: 5 },
  { id: 'bank', key: 'bank', kind: 'number', unit: '°', min: 5, max: 60, step: 5 },
  { id: 'windref', key: 'windref', kind: 'choice', options: ['magnetic', 'true'] },
  { id: 'variation', key: 'variation', kind: 'text', hint: true },
  { id: 'rule', key: 'rule', kind: 'select',
    options: ['still-air', 'drift-once', 'track-30', 'drift-triple'] },
  { id: 'timing', key: 'timing', kind: 'select', options: ['fixed', 'groundspeed'] },
  { id: 'heading', key: 'heading', kind: 'direction', unit: '°', step: 5, own: true },
  { id: 'time', key: 'time', kind: 'time', unit: 'min', min: 0, max: 600, step: 5, own: true },
  { id: 'entry', key: 'entry', kind: 'select', options: ['auto', 'offset', 'parallel', 'direct'] },
  { id: 'timer', key: 'timer', kind: 'choice', options: ['fix', 'level'] },
  { id: 'intercept', key: 'intercept', kind: 'number', unit: '°', min: 5, max: 90, step: 5 },
  { id: 'laps', key: 'laps', kind: 'number', min: 0, max: 10, step: 1 },
  { id: 'multiple-of', key: 'multiple', kind: 'choice', options: ['2', '2.5', '3', 'exact'] },
  { id: 'multiple', key: 'multiple', kind: 'number', unit: '×', min: 0, max: 10, step: 0.5 },
  { id: 'adjust', key: 'adjust', kind: 'select', options: ['seconds', 'ratio', 'exact', 'keep'] },
  { id: 'book', key: 'book', kind: 'choice', options: ['faa', 'icao'] },
  { id: 'parallel', key: 'parallel', kind: 'choice', options: ['course', 'fix'] },
  { id: 'fix', key: 'fix', kind: 'text' },
  { id: 'efc', key: 'efc', kind: 'text', hint: true },
  { id: 'station-place', key: 'station', kind: 'select', options: ['fix', 'to', 'from'] },
  { id: 'station-dme', key: 'station', kind: 'number', unit: 'NM', min: 1, max: 200 },
  { id: 'elevation', key: 'elevation', kind: 'number', unit: 'ft', min: -1000, max: 20000, step: 100 },
  { id: 'aid', key: 'aid', kind: 'select', options: ['vor', 'ndb', 'satellite'] },
  { id: 'scale', key: 'scale', kind: 'select', options: ['auto', 'vor', 'terminal', 'en-route', 'older'] },
  { id: 'measure', key: 'measure', kind: 'choice', options: ['track', 'dme'] },
  { id: 'radial', key: 'radial', kind: 'direction', unit: '°' },
  { id: 'limit', key: 'limit', kind: 'select', options: ['auto', 'faa', 'faa-icon', 'faa-air-force', 'faa-navy',
    'faa-climb', 'charted', 'icao', 'icao-turbulence', 'icao-cat-ab'] },
  { id: 'limit-kt', key: 'limit', kind: 'number', unit: 'kt', min: 60, max: 350 },
  { id: 'roll', key: 'roll', kind: 'number', unit: '°/s', min: 0, max: 30, step: 5 },
  { id: 'later-from', key: 'later', kind: 'direction', unit: '°' },
  { id: 'later-kt', key: 'later', kind: 'number', unit: 'kt', min: 0, max: 150 },
  { id: 'saw', key: 'saw', kind: 'text', hint: true },
  { id: 'took', key: 'took', kind: 'time', unit: 'min', min: 0, max: 1200 },
  { id: 'held', key: 'held', kind: 'text', hint: true },
];

/** Keys that a link may hold: what the page takes out of the query once the hash says it. */
export const LINK_KEYS = new Set([...FIELDS.map((f) => f.key), 'ias', 'v']);

/** A decimal comma is a point, a typeset minus a hyphen. @param {string} text */
const plainNumber = (text) => text.trim().replace(',', '.').replace('\u2212', '-');

/**
 * The text that a field shows, from the scenario's texts by key.
 * @param {Field} field
 * @param {Record<string, string>} values
 */
export function shown(field, values) {
  const part = PARTS[field.id];
  if (part) return part.shown(values);
  const text = values[field.key] ?? '';
  return field.kind === 'direction' ? threeDigits(text) : text;
}

/**
 * The key and text to hand to the core when `text` is entered in a field.
 * @param {Field} field
 * @param {string} text
 * @param {Record<string, string>} values Scenario's texts by key, as in `shown`.
 * @param {{tas_kt: number, ias_kt: number} | null} air
 * @returns {[key: string, text: string]}
 */
export function command(field, text, values, air) {
  const plain = plainNumber(text);
  return PARTS[field.id]?.set(plain, values, air) ?? [field.key, plain];
}

/** The number in a field's text, seconds where it is a time; NaN where there is none. */
/** @param {Field} field @param {string} text */
function numberIn(field, text) {
  const plain = plainNumber(text);
  const time = field.kind === 'time' ? /^(\d+):([0-5]\d)$/.exec(plain) : null;
  if (time) return Number(time[1]) * 60 + Number(time[2]);
  return /^[-+]?\d+(\.\d+)?$/.test(plain) ? Number(plain) : NaN;
}

/** Least and greatest value of a field. @param {Field} field @returns {[number, number]} */
const limits = (field) =>
  field.kind === 'direction' ? [0, 360] : [field.min ?? -Infinity, field.max ?? Infinity];

/**
 * Whether half-typed text may already move the picture; the core judges the rest on leaving.
 * A direction counts from its third digit on, a time from its last.
 * @param {Field} field
 * @param {string} text
 */
export function complete(field, text) {
  if (field.kind === 'text') return false;
  if (field.kind === 'direction' && !/^\s*\d{3}/.test(text)) return false;
  if (field.kind === 'time' && !text.includes(':')) return false;
  const value = numberIn(field, text);
  const [low, high] = limits(field);
  return value >= low && value <= high;
}

/**
 * The text one press of − or + away, on the step's own grid.
 * @param {Field} field
 * @param {string} text Present text of the field.
 * @param {1 | -1} direction
 * @param {number} step
 */
export function stepped(field, text, direction, step) {
  const now = numberIn(field, text);
  if (Number.isNaN(now)) return text;
  const grid = direction > 0 ? Math.floor(now / step + 1e-9) + 1 : Math.ceil(now / step - 1e-9) - 1;
  if (field.kind === 'direction') return threeDigits(String((((grid * step - 1) % 360) + 360) % 360 + 1));
  const [low, high] = limits(field);
  const next = Math.min(high, Math.max(low, grid * step));
  return field.kind === 'time' ? clock(next) : String(next);
}
