// Every language's catalogue against English: the same keys, the same placeholders, no text
// that is empty where English has words, sorted. The forms for numbers are the language's own.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { FIX_NAMES, pseudo } from './pseudo.mjs';

const folder = new URL('../../assets/words/', import.meta.url);
/** @param {string} name @returns {Record<string, string>} */
const read = (name) => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
const english = read('en.json');

/** Texts that come once for each form that a language has for numbers. */
const FAMILIES = Object.keys(english).filter((key) => key.endsWith('.one') && Object.hasOwn(english, key.replace(/one$/, 'other')))
  .map((key) => key.slice(0, -'.one'.length));

/** Keys that a language needs. @param {string} lang */
function keysFor(lang) {
  const forms = new Intl.PluralRules(lang).resolvedOptions().pluralCategories;
  const counted = FAMILIES.flatMap((family) => [`${family}.one`, `${family}.other`]);
  return [...Object.keys(english).filter((key) => !counted.includes(key)), ...FAMILIES.flatMap((family) => forms.map((form) => `${family}.${form}`))].sort();
}

/** @param {string} text */
const placeholders = (text) => (text.match(/\{\w+\}/g) ?? []).sort();

/** @param {string} text The file. @param {string} lang @returns {string[]} */
function faultsOf(text, lang) {
  /** @type {Record<string, string>} */
  const words = JSON.parse(text);
  const keys = Object.keys(words);
  const wanted = keysFor(lang);
  const twice = [...text.matchAll(/^ "([^"]+)":/gm)].map(([, key]) => key).filter((key, i, all) => all.indexOf(key) !== i);
  return [
    ...(words['page.lang'] === lang ? [] : [`page.lang is not ${lang}`]),
    ...twice.map((key) => `${key} is there twice`),
    ...wanted.filter((key) => !keys.includes(key)).map((key) => `${key} is missing`),
    ...keys.filter((key) => !wanted.includes(key)).map((key) => `${key} is not known`),
    ...FIX_NAMES.filter((key) => !/^[A-Z]{2,12}( [A-Z]{2,12})*$/.test(words[key])).map((key) => `${key} has to be names of fixes, in capital letters`),
    ...keys.filter((key, i) => i > 0 && key < keys[i - 1]).map((key) => `${key} is out of order`),
    ...keys.flatMap((key) => {
      const model = english[key] ?? english[key.replace(/\.\w+$/, '.other')];
      if (typeof words[key] !== 'string') return [`${key} is no text`];
      if (model === undefined) return [];
      if (!words[key].trim() !== !model.trim()) return [`${key} is ${model.trim() ? 'empty' : 'not empty'}`];
      // In the singular a language may leave the number out.
      const own = placeholders(words[key]);
      const same = String(own) === String(placeholders(model));
      return same || (FAMILIES.some((family) => key.startsWith(`${family}.`)) && own.every((one) => model.includes(one)))
        ? [] : [`${key} has ${own.join(' ') || 'no placeholder'}, English ${placeholders(model).join(' ') || 'none'}`];
    }),
  ];
}

for (const name of readdirSync(folder).filter((file) => file.endsWith('.json'))) {
  test(`the catalogue ${name}`, () => {
    assert.deepEqual(faultsOf(readFileSync(new URL(name, folder), 'utf8'), name.replace(/\.json$/, '')), []);
  });
}

test('what is wrong with a catalogue is said', () => {
  const bad = { ...english, 'page.copy': '', 'page.zzz': 'x', 'page.drift.left': 'left {degrees}', 'page.lang': 'de' };
  delete /** @type {Record<string, string>} */ (bad)['page.more'];
  assert.deepEqual(faultsOf(JSON.stringify(bad, null, 1), 'en'), ['page.lang is not en', 'page.more is missing', 'page.zzz is not known',
    'page.copy is empty', 'page.drift.left has {degrees}, English {deg}'].map((text) => text), 'in this order');
});

test('a language has the forms for numbers that are its own', () => {
  assert.ok(keysFor('pl').includes('page.minutes.few'));
  assert.ok(!keysFor('ja').includes('page.minutes.one'));
});

test('the made-up language is longer, accented, and keeps placeholders', () => {
  for (const text of Object.values(english).filter((one) => /[a-z]/.test(one.replace(/\{\w+\}/g, '')))) {
    const made = pseudo(text);
    assert.deepEqual(placeholders(made), placeholders(text));
    const letters = text.replace(/\{\w+\}/g, '').length;
    assert.ok(!/[aeiouy]/i.test(made.replace(/\{\w+\}/g, '')), made);
    assert.ok(!/[aeiouy]/i.test(text.replace(/\{\w+\}/g, '')) || made.replace(/\{\w+\}/g, '').length >= 1.4 * letters, made);
  }
});
