// Words of the page, from the one catalogue (assets/words/en.json).
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

const PLURALS = new Intl.PluralRules('en');

/** "1 minute 7 seconds", for reading aloud; no sign. @param {number} seconds */
export function duration(seconds) {
  const all = Math.round(Math.abs(seconds));
  const minutes = Math.floor(all / 60);
  const rest = all % 60;
  const parts = [];
  if (minutes) parts.push(say(`page.minutes.${PLURALS.select(minutes)}`, { n: minutes }));
  if (rest || !minutes) parts.push(say(`page.seconds.${PLURALS.select(rest)}`, { n: rest }));
  return parts.join(' ');
}
