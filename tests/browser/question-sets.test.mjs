// The built-in question sets against their JSON Schema, the schema against wrong ones, and
// that the core takes and refuses what the schema does.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, it } from 'node:test';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { coreInNode } from './lesson.mjs';

const folder = new URL('../../assets/sets/', import.meta.url);
/** @param {string} name */
const json = (name) => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
const ajv = new Ajv2020({ allErrors: true, strict: true, strictTypes: false });
const compiled = ajv.compile(json('question-set.schema.json'));
/** @param {unknown} data @returns {boolean} */
const valid = (data) => compiled(data);
const sets = readdirSync(folder).filter((name) => name !== 'question-set.schema.json');
const core = await coreInNode();

describe('question sets', () => {
  it('are all there, and offered', () => {
    assert.deepEqual(core.tutor().sets().map(({ id }) => `${id}.json`).sort(), sets.sort());
  });

  for (const name of sets) {
    it(`${name} is as the schema has it`, () => {
      const set = json(name);
      assert.ok(valid(set), ajv.errorsText(compiled.errors));
      assert.equal(`${set.id}.json`, name);
    });
  }

  it('the example of docs/practice.md is as the schema has it, and the core takes it whole', () => {
    const text = readFileSync(new URL('../../docs/practice.md', import.meta.url), 'utf8');
    const example = /```json\n([\s\S]*?)```/.exec(text);
    assert.ok(example, 'an example in docs/practice.md');
    assert.ok(valid(JSON.parse(example[1])), ajv.errorsText(compiled.errors));
    assert.deepEqual(core.tutor().useSet(example[1]).problems, []);
  });

  for (const wrong of [
    {}, { id: 'Big' }, { id: '' }, { id: 'x', version: 0 }, { id: 'x', version: 1.5 }, { id: 'x', format: 2 },
    { id: 'x', title: 'x'.repeat(201) }, { id: 'x', skills: [] }, { id: 'x', skills: ['flying'] }, { id: 'x', colour: 'red' },
    ...[{ turns: ['up'] }, { entries: ['teardrop'] }, { inbound: 0 }, { inbound: { from: 1, to: 361 } },
      { inbound: { from: 1, to: 90, step: 0 } }, { inbound: { from: 1 } }, { inbound: '90' }, { ias: 250 }, { ias: { from: 50, to: 90 } },
      { altitude: 45000 }, { wind_kt: 41 }, { wind_kt: { from: -5, to: 10 } }, { wind_from: 400 }, { boundary: 'close' },
      { timing: [] }, { speed: 100 }].map((ranges) => ({ id: 'x', ranges })),
    { id: 'x', cases: 'wind=160/24' }, { id: 'x', cases: [3] },
  ]) {
    const text = JSON.stringify(wrong);
    it(`neither schema nor core lets ${text.slice(0, 60)} pass`, () => {
      assert.ok(!valid(wrong));
      assert.notEqual(core.tutor().useSet(text).problems.length, 0);
    });
  }
});
