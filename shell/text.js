// Words of the page, from the catalogue of its language (assets/words/).
import words from './words.js';

/**
 * The catalogue's text for `key`, with each {name} replaced.
 * A missing key shows itself, so that a gap is seen and not hidden.
 * @param {string} key
 * @param {Record<string, string | number>} [values]
 */
export function say(key, values = {}) {
  const text = Object.hasOwn(words, key) ? words[key] : key;
  return text.replace(/\{(\w+)\}/g, (whole, name) =>
    Object.hasOwn(values, name) ? String(values[name]) : whole);
}

const PLURALS = new Intl.PluralRules(say('page.lang'));

/** A text for a number, in the form that the language has for it. @param {string} key @param {number} n */
export const counted = (key, n) => say(`${key}.${PLURALS.select(n)}`, { n });

/** "1 minute 7 seconds", for reading aloud; no sign. @param {number} seconds */
export function duration(seconds) {
  const all = Math.round(Math.abs(seconds));
  const minutes = Math.floor(all / 60);
  const rest = all % 60;
  const parts = [];
  if (minutes) parts.push(counted('page.minutes', minutes));
  if (rest || !minutes) parts.push(counted('page.seconds', rest));
  return parts.join(' ');
}
