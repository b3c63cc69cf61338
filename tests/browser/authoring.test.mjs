// What docs/authoring.md and docs/course.md tell instructors: every link, code and set of
// theirs is used as it stands, and every label that they, embedding.md and privacy.md quote is the page's.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { describe, test } from 'node:test';
import { coreInNode } from './lesson.mjs';

/** @param {string} name */
const read = (name) => readFile(new URL(`../../${name}`, import.meta.url), 'utf8');
const [authoring, course, practice, moduleText, embedding, privacy] = await Promise.all(['authoring', 'course', 'practice', 'module', 'embedding', 'privacy'].map((name) => read(`docs/${name}.md`)));
/** @type {Record<string, string>} */
const words = JSON.parse(await read('assets/words/en.json'));
const lesson = JSON.parse(await read('assets/lesson/entry.en.json'));
const winds = (await Promise.all(['mode-winds', 'winds-choice', 'winds-choice-more'].map((name) => read(`shell/${name}.html`)))).join('');
const core = await coreInNode();

/** Keys of the page, which the core does not have. @type {Record<string, (value: string) => boolean>} */
const PAGE = {
  mode: (value) => `page.mode.${value}` in words,
  step: (value) => lesson.steps.some((/** @type {{id: string}} */ { id }) => id === value),
  set: (value) => /\.json$/.test(value) || core.tutor().sets().some(({ id }) => id === value),
  code: (value) => core.tutor().sheet({ code: value, count: 1 }).problems.length === 0,
  check: (value) => value === '1',
  view: (value) => `page.view.${value}` in words,
  plan: (value) => `page.winds.plan.${value}` in words,
  most: (value) => winds.includes(`<option value="${value}">${value} kt</option>`),
};

describe('what instructors are told', () => {
  const links = [...authoring.matchAll(/`#([^`]+)`/g)].map(([, link]) => link);

  test('there are links', () => assert.ok(links.length > 8));

  for (const link of new Set(links)) {
    test(`#${link} is taken as it stands`, () => {
      const pairs = [...new URLSearchParams(link)];
      for (const [key, value] of pairs) if (key in PAGE) assert.ok(PAGE[key](value), `${key}=${value}`);
      const scene = pairs.filter(([key]) => !(key in PAGE)).map(([key, value]) => `${key}=${value}`).join('&');
      const { problems, fields } = core.evaluate(scene);
      assert.deepEqual(problems, []);
      if (scene) assert.ok(Object.keys(fields ?? {}).length);
    });
  }

  test('the question set is taken whole', () => {
    const example = /```json\n([\s\S]*?)```/.exec(authoring)?.[1] ?? '';
    const set = core.tutor().useSet(example);
    assert.deepEqual([set.usable, set.problems, set.id], [true, [], JSON.parse(example).id]);
    assert.match(authoring, new RegExp(`\`${set.id}\\.json\``), 'it is saved by its name');
  });

  test('labels, and parts of these pages, are called what they are called', () => {
    const known = [...Object.values(words), ...[authoring, course, practice, moduleText, embedding].flatMap((text) =>
      [...text.matchAll(/^#+ (.*)$/gm)].map(([, heading]) => heading))];
    const quoted = [authoring, course, embedding, privacy].flatMap((text) => [...text.replace(/```[\s\S]*?```|`[^`]*`/g, '').matchAll(/"([A-Za-z][^"]+)"/g)].map(([, label]) => label));
    assert.ok(quoted.length > 15);
    for (const label of quoted) assert.ok(known.some((text) => text.startsWith(label)), `“${label}” is in neither the page nor these texts`);
    const states = /^\| the strip says .*\n\| ---.*\n((?:\|.*\n)+)/m.exec(course)?.[1].trim().split('\n') ?? [];
    assert.ok(states.length >= 5, 'the table of what the strip says');
    for (const row of states) {
      const first = row.split('|')[1].trim();
      assert.ok(Object.entries(words).some(([key, text]) => key.startsWith('page.course.') && text.startsWith(first)), `“${first}” is not what the strip says`);
    }
  });

  test('a code with one character misread is refused; with two, as often as they are told', () => {
    const [, ways, taken] = (/of the ([\d,]+) ways to misread two characters of `2003Q`, (\d+) are taken/.exec(practice) ?? []).map((text) => Number(text.replace(',', '')));
    const figures = [...'0123456789ABCDEFGHJKMNPQRSTVWXYZ'];
    /** Every code that has another character at each of these places. @param {string} code @param {number[]} places @returns {string[]} */
    const misread = (code, [at, ...others]) => (at === undefined ? [code]
      : figures.filter((figure) => figure !== code[at]).flatMap((figure) => misread(`${code.slice(0, at)}${figure}${code.slice(at + 1)}`, others)));
    const places = [0, 1, 2, 3, 4];
    assert.deepEqual(places.flatMap((at) => misread('2003Q', [at])).filter(PAGE.code), []);
    const two = places.flatMap((at) => places.slice(at + 1).flatMap((other) => misread('2003Q', [at, other])));
    assert.deepEqual([two.length, two.filter(PAGE.code).length], [ways, taken]);
    assert.ok(PAGE.code('200Q3'));
  });
});
