// The key of a printed sheet, reckoned again from nothing but the words of its questions:
// every built-in set, three codes, twenty-four questions each.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { coreInNode } from './lesson.mjs';

/** @typedef {import('../../shell/types').SheetItem} SheetItem */

const tutor = (await coreInNode()).tutor();
const POINTS = ['NORTH', 'NORTHEAST', 'EAST', 'SOUTHEAST', 'SOUTH', 'SOUTHWEST', 'WEST', 'NORTHWEST'];

/** @param {number} deg */
const wrap180 = (deg) => ((((deg + 180) % 360) + 360) % 360) - 180;
/** @param {number} deg */
const sin = (deg) => Math.sin((deg * Math.PI) / 180);
/** @param {number} deg */
const cos = (deg) => Math.cos((deg * Math.PI) / 180);
/** @param {string} text Minutes and seconds. */
const seconds = (text) => text.split(':').reduce((sum, part) => 60 * sum + Number(part), 0);

/** What a question says in words and figures. @param {string} question */
function saidIn(question) {
  /** @param {RegExp} what */
  const number = (what) => Number(what.exec(question)?.[1] ?? 0);
  return {
    inbound: number(/inbound course (\d+)°/), side: /left turns/.test(question) ? 1 : -1,
    arrive: number(/on course (\d+)°/), held: number(/holding heading (\d+)°/),
    from: number(/wind is (\d+)°/), kt: number(/wind is \d+° at (\d+) kt/), tas: number(/(\d+) kt true/),
  };
}

/** Entries by their sectors; at a boundary both, since the heading is rounded. @param {ReturnType<typeof saidIn>} said */
function entries({ inbound, side, held }) {
  // From the outbound course to the side on which the pattern lies.
  const to_side = side * wrap180(held - inbound - 180);
  const sectors = /** @type {const} */ ([['teardrop', 0, 70], ['parallel', -110, 0], ['direct', 70, 250], ['direct', -290, -110]]);
  return sectors.filter(([, from, to]) => to_side >= from - 1 && to_side <= to + 1).map(([name]) => name);
}

/** Nearest whole numbers, since the words are rounded. @param {number} got @param {number} want @param {string} about */
const near = (got, want, about) => assert.ok(Math.abs(got - want) <= 1, `${about}: the key has ${got}, reckoned ${want}`);

/** @type {Record<string, (item: SheetItem, said: ReturnType<typeof saidIn>) => void>} */
const RECKONED = {
  entry: ({ right_text, question }, said) => assert.ok(entries(said).some((name) => name === right_text), `${question} ${right_text}`),
  heading: ({ right_text, question }, { inbound, side, held, arrive }) =>
    near(wrap180(parseInt(right_text, 10) - (inbound + 180 + 30 * side + held - arrive)), 0, `${question} ${right_text}`),
  wind: ({ right_text, question }, { from, inbound, kt, tas }) => {
    const deg = (Math.asin((kt * sin(from - inbound)) / tas) * 180) / Math.PI;
    near(parseInt(right_text, 10) * (/left/.test(right_text) ? -1 : 1), deg, question);
  },
  timing: ({ right_text, question }, { from, inbound, kt, tas }) => {
    const lap = /flew ([\d:]+) outbound, and the inbound leg took ([\d:]+)\. You want ([\d:]+)/.exec(question);
    if (lap) {
      const [flown, took, want] = lap.slice(1).map(seconds);
      near(seconds(right_text), flown - (took - want), question);
      return;
    }
    const off = from - inbound - 180;
    const speed = tas * Math.sqrt(1 - ((kt / tas) * sin(off)) ** 2) - kt * cos(off);
    near(seconds(right_text), (60 * tas) / speed, question);
  },
  clearance: ({ right_text, question }) => {
    const said = /HOLD (\w+) OF .* ON THE (?:\w+ )?(\d{3}) /.exec(question);
    assert.ok(said, question);
    const along = Number(said[2]);
    const beyond = Math.abs(wrap180(along - 45 * POINTS.indexOf(said[1]))) < 90;
    const inbound = (along + (beyond ? 180 : 0)) % 360 || 360;
    assert.equal(right_text, `${String(inbound).padStart(3, '0')}° ${/LEFT TURNS/.test(question) ? 'left' : 'right'}`, question);
  },
};

describe('the key of a sheet', () => {
  for (const { id } of tutor.sets()) {
    it(`is what the questions of ${id} give by hand`, () => {
      assert.ok(tutor.useSet(id).usable);
      for (const seed of [7, 77, 4242]) {
        const { items, problems } = tutor.sheet({ code: tutor.newCode(seed), count: 24 });
        assert.deepEqual(problems, []);
        assert.equal(items.length, 24);
        for (const item of items) RECKONED[item.skill](item, saidIn(item.question));
      }
    });
  }
});
