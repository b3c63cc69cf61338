// Fields that show or set only a part of their key's text, or show it in other words.
import { say } from './text.js';

/** @typedef {Record<string, string>} Texts The scenario's texts by key. */
/**
 * @typedef {object} FieldPart
 * @property {(values: Texts) => string} shown
 * @property {(text: string, values: Texts, air: {tas_kt: number, ias_kt: number} | null) => [key: string, text: string]} set
 */

/** What a DME fix or a charted speed starts from when it is chosen before its number. */
const FIRST_DME = '10';
const FIRST_CHARTED_KT = '175';

/** @param {string | undefined} text @returns {[first: string, second: string]} */
function pair(text) {
  const [first = '', second = ''] = (text ?? '').split('/');
  return [first, second];
}

/** @param {string} text Three digits where it is a whole direction, else as it is. */
export const threeDigits = (text) => (/^\d{1,2}$/.test(text) ? text.padStart(3, '0') : text);

/** @param {Texts} values */
const speed = (values) => values.ias || values.tas || '';

/** @param {string | undefined} text "10to" @returns {{dme: string, place: string}} */
function station(text) {
  const found = /^([\d.]+)(to|from)$/.exec(text ?? '');
  return found ? { dme: found[1], place: found[2] } : { dme: '', place: 'fix' };
}

/** @param {string} text */
const isNumber = (text) => /^[\d.]+$/.test(text);

/**
 * The wind later on: one half entered alone takes the other from the present wind, and
 * emptying either takes it away.
 * @param {string} from @param {string} knots @param {Texts} values @returns {[string, string]}
 */
function later(from, knots, values) {
  const [now_from, now_knots] = pair(values.wind);
  return ['later', `${from || now_from}/${knots || now_knots}`];
}

/**
 * "0.3 past" is −0.3: beyond the course; "0.2 short" is 0.2: still on the holding side.
 * Anything else goes on as it is, for the core to refuse by name.
 * @param {string} text
 */
function signedMiss(text) {
  const found = /^(\d*\.?\d+)\s*(?:nm)?\s*(\p{L}+)$/iu.exec(text);
  if (!found) return text;
  const word = found[2].toLocaleLowerCase();
  if (say('page.field.saw.past').startsWith(word)) return `-${found[1]}`;
  return say('page.field.saw.short').startsWith(word) ? found[1] : text;
}

/** @param {string | undefined} text */
function missInWords(text) {
  const nm = Number(text);
  if (!text || Number.isNaN(nm) || nm === 0) return text ?? '';
  return `${Math.abs(nm)} ${say(nm < 0 ? 'page.field.saw.past' : 'page.field.saw.short')}`;
}

/** By the field's id. @type {Record<string, FieldPart>} */
export const PARTS = {
  'wind-from': {
    shown: (values) => threeDigits(pair(values.wind)[0]),
    set: (text, values) => ['wind', `${text}/${pair(values.wind)[1]}`],
  },
  'wind-kt': {
    shown: (values) => pair(values.wind)[1],
    set: (text, values) => ['wind', `${pair(values.wind)[0]}/${text}`],
  },
  'later-from': {
    shown: (values) => threeDigits(pair(values.later)[0]),
    set: (text, values) => (text ? later(text, pair(values.later)[1], values) : ['later', '']),
  },
  'later-kt': {
    shown: (values) => pair(values.later)[1],
    set: (text, values) => (text ? later(pair(values.later)[0], text, values) : ['later', '']),
  },
  speed: {
    shown: speed,
    set: (text, values) => [values.ias ? 'ias' : 'tas', text],
  },
  'speed-kind': {
    shown: (values) => (values.ias ? 'ias' : 'tas'),
    // Another name for the same speed: the number changes, the flight does not.
    set(text, values, air) {
      const same = text === 'ias' ? air?.ias_kt : air?.tas_kt;
      return [text, same === undefined ? speed(values) : String(Math.round(same))];
    },
  },
  // The usual multiples as choices, any other as a number: the same key.
  multiple: {
    shown: (values) => (values.multiple === 'exact' ? '' : values.multiple ?? ''),
    set: (text) => ['multiple', text],
  },
  scale: {
    shown: (values) => values.scale || 'auto',
    set: (text) => ['scale', text === 'auto' ? '' : text],
  },
  'station-place': {
    shown: (values) => station(values.station).place,
    set: (text, values) =>
      ['station', text === 'fix' ? text : `${station(values.station).dme || FIRST_DME}${text}`],
  },
  'station-dme': {
    shown: (values) => station(values.station).dme,
    set(text, values) {
      const { place } = station(values.station);
      return ['station', text ? `${text}${place === 'fix' ? 'to' : place}` : 'fix'];
    },
  },
  limit: {
    shown: (values) => (!values.limit ? 'auto' : isNumber(values.limit) ? 'charted' : values.limit),
    set: (text, values) => ['limit', text === 'auto' ? ''
      : text !== 'charted' ? text : isNumber(values.limit ?? '') ? values.limit : FIRST_CHARTED_KT],
  },
  'limit-kt': {
    shown: (values) => (isNumber(values.limit ?? '') ? values.limit : ''),
    set: (text) => ['limit', text],
  },
  saw: {
    shown: (values) => missInWords(values.saw),
    set: (text) => ['saw', signedMiss(text)],
  },
};
