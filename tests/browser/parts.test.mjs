// The core in two parts: before the second comes, the first answers as the whole one does in all
// that the page's first view asks, and what it cannot answer it refuses; after that they are the
// same.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { SITE } from './lesson.mjs';

/** @typedef {import('../../shell/types').Core} Core */

/** @type {typeof import('../../web/core.mjs')} */
const { load } = await import(pathToFileURL(join(SITE, 'core.mjs')).href);
const whole = readFileSync(join(SITE, '../module/core.wasm'));

/** What the report of the first part has, and so what the page's first view may use. */
const FIRST = ['scenario', 'problems', 'air', 'wind', 'entry', 'rollout', 'exact', 'events', 'link', 'fields', 'plans', 'sum',
  'headline', 'outcome', 'summary', 'sector', 'published_s', 'fix_missed'];

/** @type {Record<string, string[]>} */
const VALUES = {
  wind: ['', '0/0', '160/24', '310/30', '58/34', '238/35', '90/150', 'north'],
  inbound: ['', '360', '91', '400'],
  arrive: ['', '85', '58', '238', '328', '148', '300'],
  turns: ['', 'right', 'up'],
  entry: ['', 'parallel', 'direct', 'offset'],
  rule: ['', 'still-air', 'drift-once', 'track-30', 'drift-triple'],
  heading: ['', '118', '5'], time: ['', '0:10', '1:07', '9:59', 'soon'],
  timing: ['', 'groundspeed'], timer: ['', 'level'],
  laps: ['', '1', '5', '10', '11'], adjust: ['', 'ratio', 'exact', 'keep'], multiple: ['', 'exact', '2'],
  leg: ['', '4nm', '1:30'], altitude: ['', '14500', '99000'], tas: ['', '140', '350'], bank: ['', '12.5'],
  book: ['', 'icao'], parallel: ['', 'fix'], intercept: ['', '90'], roll: ['', '5'], later: ['', '250/30'],
  station: ['', '10to', '20from'], aid: ['', 'ndb'], measure: ['', 'dme'], radial: ['', '200'], limit: ['', 'icao'],
  windref: ['', 'true'], variation: ['', '7E'], isa: ['', '15'], fix: ['', 'TARNE'], efc: ['', '18:45'],
  saw: ['', '-0.3'], took: ['', '1:10'], held: ['', '8L'], nonsense: ['', '1'],
};

/** Scenes that have every value of every key, and many of them together. */
function scenes() {
  const keys = Object.keys(VALUES);
  const single = keys.flatMap((key) => VALUES[key].filter(Boolean).map((value) => `${key}=${value}`));
  const mixed = Array.from({ length: 150 }, (_, i) => keys
    .map((key, k) => [key, VALUES[key][(i * (2 * k + 3) + ((i * i) % (k + 2))) % VALUES[key].length]])
    .filter(([, value]) => value).map(([key, value]) => `${key}=${value}`).join('&'));
  return ['', ...single, ...mixed];
}

/** @param {import('../../shell/types').Evaluation} report */
const firstOf = (report) => Object.fromEntries(Object.entries(report).filter(([key]) => FIRST.includes(key)));

/** The picture's bytes. @param {Core} core */
function picture(core) {
  const { items, points, text, ...view } = core.session().diagram();
  return { ...view, items: Buffer.from(items).toString('hex'), points: Buffer.from(points).toString('hex'), text: Buffer.from(text).toString() };
}

/** What the first view shows. @param {Core} core */
const shown = (core) => ({ report: firstOf(core.session().report()), words: core.session().pictureWords(), picture: picture(core), link: core.session().link() });

/** Hands, clock and fields, and what is seen after each. @param {Core} core @param {string} link */
function walked(core, link) {
  const session = core.session(link);
  session.resize(880, 640);
  const seen = [shown(core)];
  /** @param {() => unknown} act */
  const after = (act) => {
    act();
    seen.push(shown(core));
  };
  const at = session.handle(1);
  if (at) {
    after(() => session.pointer(0, 1, at.x, at.y, false));
    after(() => session.pointer(1, 1, at.x + 30, at.y + 12, false));
    after(() => session.pointer(2, 1, at.x + 30, at.y + 12, false));
  }
  after(() => session.pointer(1, 1, 440, 320, false));
  after(() => session.set('laps', '4'));
  after(() => session.set('time', 'never'));
  after(() => session.choose('exact'));
  after(() => session.layer('exact', false));
  after(() => session.lock(['wind'], 'wind=300/20'));
  after(() => session.undo());
  after(() => (session.play(), session.tick(20)));
  after(() => session.step(1));
  after(() => session.zoom(200, 200, 1.7));
  after(() => session.fit());
  after(() => session.showHandles(false));
  after(() => session.showFlight(false));
  after(() => (session.showFlight(true), session.showHandles(true)));
  after(() => session.visit('wind=40/20'));
  after(() => session.back());
  after(() => session.reset());
  session.lock([], '');
  seen.push({ .../** @type {any} */ ({ svg: session.svg('dark') }), ...shown(core) });
  return seen;
}

test('before its second part comes, the core answers all that the first view asks', async () => {
  const [first, all] = await Promise.all([load({ first: true }), load({ wasm: whole })]);
  for (const link of scenes()) {
    const part = first.evaluate(link);
    assert.deepEqual(Object.keys(part).sort(), [...FIRST].sort(), link);
    assert.deepEqual(part, firstOf(all.evaluate(link)), link);
    assert.equal(first.svg(link), all.svg(link), link);
  }
  for (const link of ['', ...scenes().filter((_, i) => i % 9 === 0)]) assert.deepEqual(walked(first, link), walked(all, link), link);
  assert.equal(first.themeCss(), all.themeCss());
});

test('what is in the second part is refused before it comes, and nothing is spoilt', async () => {
  const core = await load({ first: true });
  const session = core.session('laps=2');
  for (const call of [() => core.tutor(), () => core.readClearance('hold west'), () => core.readWindReport('metar', '16024KT'),
    () => core.reportKinds(), () => session.flyStart(), () => session.flyState(), () => session.live().needle,
    () => session.layer('area', true), () => session.layer('sectors', true), () => session.layer('limits', true),
    () => session.layer('other_entry', true), () => session.beside('wind=1/1')]) {
    assert.throws(call, /core-more\.wasm is not there/);
  }
  assert.equal(session.beside(''), 0);
  assert.equal(session.layer('area', false), 0);
  assert.equal(session.report().link, 'laps=2');
});

test('with its second part the core is the whole one, and keeps the session it had', async () => {
  const [core, all] = await Promise.all([load({ first: true }), load({ wasm: whole })]);
  for (const one of [core, all]) {
    one.session('wind=310/30');
    one.session().set('laps', '3');
  }
  await Promise.all([core.more(), core.more()]);
  await core.more();
  for (const one of [core, all]) one.session().undo();
  assert.equal(core.session().link(), 'wind=310/30');
  for (const link of scenes().filter((_, i) => i % 8 === 0)) assert.equal(JSON.stringify(core.evaluate(link)), JSON.stringify(all.evaluate(link)), link);
  for (const layer of ['sectors', 'other_entry', 'area', 'limits']) {
    for (const one of [core, all]) one.session().layer(layer, true);
    assert.deepEqual([shown(core), core.session().report()], [shown(all), all.session().report()], layer);
  }
  for (const one of [core, all]) one.session().beside('wind=20/20', 'beside');
  assert.deepEqual(picture(core), picture(all));
  for (const one of [core, all]) {
    one.session().flyStart({ seed: 5 });
    one.session().play();
    one.session().tick(70);
    one.session().flyTurn(-1);
    one.session().tick(20);
  }
  assert.deepEqual([core.session().flyState(), picture(core)], [all.session().flyState(), picture(all)]);
  for (const one of [core, all]) one.session().flyEnd();
  assert.deepEqual([core.session().flyDebrief(), picture(core)], [all.session().flyDebrief(), picture(all)]);
  const asked = [core, all].map((one) => {
    const tutor = one.tutor();
    tutor.today(20000);
    tutor.begin({ mode: 'check', code: tutor.newCode(7) });
    return [tutor.sets(), tutor.sheet({ code: tutor.newCode(9), count: 20 }), tutor.answer('94'), tutor.next(), tutor.progress()];
  });
  assert.deepEqual(asked[0], asked[1]);
  assert.deepEqual(core.readClearance('hold west of the fix, left turns'), all.readClearance('hold west of the fix, left turns'));
  assert.deepEqual(core.readWindReport('metar', '16024G35KT'), all.readWindReport('metar', '16024G35KT'));
  assert.deepEqual(core.reportKinds(), all.reportKinds());
});

test('a second part that cannot be had is tried again; both can be handed over', async () => {
  const bytes = (/** @type {string} */ name) => readFileSync(join(SITE, name));
  const core = await load({ first: true, wasm: bytes('core.wasm'), more: bytes('core-more.wasm') });
  await core.more();
  assert.equal(core.tutor().sets().length > 3, true);
  await assert.rejects(load({ wasm: bytes('core.wasm'), more: Buffer.from('none') }), WebAssembly.CompileError);
  assert.equal((await load({ wasm: whole, first: true })).tutor().sets().length > 3, true, 'a whole core has it all');
});
