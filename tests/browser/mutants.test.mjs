// The small mistakes of tests/mutation: made in code, one piece of one line at a time.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { codeOf, mutantsOf, mutated, randomFrom, wilson } from '../mutation/mutants.mjs';

/** @param {string} text @returns {string[]} What the text can become. */
const become = (text) => mutantsOf(text).map((mutant) => mutated(text, mutant));

test('operators, signs, constants, comparisons, conditions and statements are changed', () => {
  assert.deepEqual(become('return a + b;'), ['return a - b;']);
  assert.deepEqual(become('x *= f(y);'), ['x /= f(y);', ';']);
  assert.deepEqual(become('return -x;'), ['return x;']);
  assert.deepEqual(become('int n{3};'), ['int n{4};', 'int n{2};']);
  assert.deepEqual(become('double v{0.5};'), ['double v{(0.5 * 1.05)};', 'double v{(-0.5)};']);
  assert.deepEqual(become('if (a < b) {'), ['if (a <= b) {', 'if (a > b) {']);
  assert.deepEqual(become('if (!a && b) {'), ['if (!a || b) {', 'if (a && b) {']);
  assert.deepEqual(become('const double c = std::min(a, b);'), ['const double c = std::max(a, b);']);
  assert.deepEqual(become('  out.push_back(x);'), ['  ;']);
});

test('comments, texts, templates, pointers and what the preprocessor reads are left', () => {
  for (const text of ['// a + b', 'f("a < 1")', "g('-')", '#if A && 1', 'using A = B<3>;', 'const char* name{};', 'std::vector<int> all{};', '/* 1\n 2 */']) {
    assert.deepEqual(become(text), [], text);
  }
  assert.equal(codeOf('a /* b\nc */ d').length, 'a /* b\nc */ d'.length);
});

test('each changes one line of the core, and no two of them are the same', () => {
  const folder = new URL('../../core/', import.meta.url);
  for (const name of readdirSync(folder)) {
    const text = readFileSync(new URL(name, folder), 'utf8');
    const lines = text.split('\n');
    const all = mutantsOf(text);
    for (const mutant of all) {
      const made = mutated(text, mutant).split('\n');
      assert.equal(made.length, lines.length, name);
      assert.deepEqual(made.flatMap((line, at) => (line === lines[at] ? [] : [at])), [mutant.line], name);
    }
    assert.equal(new Set(all.map((one) => `${one.line} ${one.from} ${one.to} ${one.by}`)).size, all.length, name);
  }
});

test('a seed gives the same numbers, and the interval of a share is Wilson’s', () => {
  const [a, b] = [randomFrom(7), randomFrom(7)];
  assert.deepEqual([a(), a(), a()], [b(), b(), b()]);
  const [low, high] = wilson(95, 100); // by hand: (0.95 + 0.019207) / 1.038415 -+ 0.045
  assert.ok(Math.abs(low - 0.888247) < 1e-5 && Math.abs(high - 0.978456) < 1e-5, `${low} ${high}`);
});
