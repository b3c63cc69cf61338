// The types of the module are true: answers of many links, readings, flights and practice are
// walked against web/core.d.mts, key by key.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { faultsOf, membersOf, pathsOf, typeNamed } from './answer-types.mjs';
import { coreInNode } from './lesson.mjs';
import { GOLDEN, manyLinks } from './links.mjs';

const core = await coreInNode();
const session = core.session('');

/**
 * Every value is of the type, and together they have everything that it names.
 * @param {string} name @param {unknown[]} values @param {string[]} [never] Paths that none has.
 */
function agree(name, values, never = []) {
  const type = typeNamed(name);
  /** @type {Set<string>} */
  const seen = new Set();
  const faults = values.flatMap((value) => faultsOf(value, type, name, seen));
  assert.deepEqual([...new Set(faults)].slice(0, 20), []);
  assert.deepEqual(pathsOf(type, name).filter((path) => !seen.has(path) && !never.includes(path)), [], 'named in the types, in no answer');
}

/** What the links of the other tests leave out. */
const MORE = [
  'laps=3&saw=0.3&took=45&held=8L', 'laps=2&saw=-0.5&took=0:50', 'saw=0.3&took=55&held=12R&wind=180/20', 'saw=0.2', 'took=0:50',
  'wind=160/150', 'wind=160/90&laps=2', 'station=10to&leg=4nm&measure=dme&laps=2', 'station=20from&leg=5nm', 'station=10to&radial=60&laps=1',
  'limit=180', 'limit=faa-navy', 'limit=icao&altitude=36000&ias=210', 'roll=5', 'later=300/30&laps=2', 'efc=18:45&fix=ABC', 'fix=12',
  'bogus=1&wind=foo', 'entry=parallel&parallel=fix', 'book=icao', 'aid=ndb', 'aid=satellite&scale=terminal', 'altitude=30000&ias=200',
  'wind=360/0', 'isa=60', 'ias=350&altitude=41000', 'altitude=45000', 'multiple=exact&laps=3&adjust=ratio', 'adjust=exact&laps=2', 'adjust=keep&laps=1',
  'rule=still-air&timing=groundspeed', 'rule=track-30&bank=5', 'tas=40&wind=360/39', 'heading=90&time=0:00', 'turns=right&arrive=0',
];

test('the functions are those that the types name', () => {
  assert.deepEqual(Object.keys(core).sort(), membersOf('Core'));
  assert.deepEqual(Object.keys(session).sort(), membersOf('Session'));
  assert.deepEqual(Object.keys(core.tutor()).sort(), membersOf('Tutor'));
});

test('an evaluation is what the types say', () => {
  const links = [...GOLDEN.map(([given]) => given), ...manyLinks(60, 3), ...MORE];
  agree('Evaluation', links.map((link) => core.evaluate(link)), ['Evaluation.area.why']);
});

test('what a session says is what the types say', () => {
  /** @type {unknown[]} */
  const live = [];
  /** @type {unknown[]} */
  const needles = [];
  for (const link of ['', 'station=10to', 'aid=ndb&station=12from', 'aid=satellite']) {
    session.open(link);
    for (let t = -60; t < 400; t += 40) {
      session.seek(t);
      const now = session.live();
      needles.push(now.needle);
      live.push({ ...now, needle: now.needle });
    }
  }
  agree('Needle', needles);
  agree('Live', live);
  const report = core.session('station=10to').report();
  assert.equal(report.area, null, 'the layer is off');
  assert.deepEqual(faultsOf(report, typeNamed('Evaluation'), '', new Set()), []);
});

test('a flight by hand is what the types say', () => {
  /** @type {unknown[]} */
  const states = [];
  /** @type {unknown[]} */
  const debriefs = [];
  for (const [link, options] of /** @type {const} */ ([['wind=360/0', {}], ['', { windShown: false, seed: 5 }]])) {
    const plan = core.evaluate(link).exact.heading_and_time;
    session.open(link);
    session.flyStart(options);
    session.play();
    /** @param {number} seconds */
    const fly = (seconds) => {
      states.push(session.flyState());
      for (const until = session.live().t_s + seconds; session.live().t_s < until;) session.tick(0.25);
    };
    fly(60);
    session.flyBug(Number(plan.heading_deg));
    fly(15);
    session.flyClock();
    fly(Number(plan.time_s) - 15);
    session.flyBug(238, -1);
    fly(120);
    // A lap by hand: the first turn, out, and back.
    session.flyBug(58, -1);
    fly(62);
    session.flyClock();
    fly(40);
    session.flyTurn(-1);
    fly(5);
    session.flyBug(238, -1);
    fly(180);
    session.flyEnd();
    states.push(session.flyState());
    debriefs.push(session.flyDebrief());
    session.flyLeave();
  }
  agree('FlyState', states, ['FlyState.why']);
  agree('Debrief', debriefs);
  assert.deepEqual(Object.keys(session.flyState()).sort(), ['phase', 'why'], 'no flight');
  assert.equal(session.flyDebrief(), null);
});

test('clearances and wind reports are what the types say', () => {
  agree('ReadClearance', [
    'HOLD NORTHWEST OF THE ABC VOR ON THE 330 RADIAL, LEFT TURNS, EXPECT FURTHER CLEARANCE 1845, TIME NOW 1815',
    'hold east of the ABC 10 DME fix on the 090 radial, 4 mile legs, right turns, maximum speed 175 knots', 'hold north of the XYZ NDB bearing 020 to',
    'hold west of ABC on V12, inbound course 090, 1 minute legs', 'hold east of DEFOR on the ABC 090 radial 10 DME', 'hold east of ABC on the 090 radial, inbound course 270', 'cleared to ABC, hold south as published', 'nothing of the sort', '',
  ].flatMap((text) => [core.readClearance(text), core.readClearance(text, '150')]));
  agree('ReadWindReport', [['metar', 'METAR KABC 261853Z 31022G30KT 10SM 15/08 A2992'], ['taf', 'TAF KABC 261730Z 2618/2718 31015KT P6SM FM262200 33020G28KT'],
    ['winds-aloft', '2725+05'], ['winds-aloft', '9900'], ['winds-aloft', '7799-10'], ['atis', 'wind 310 at 15 gusts 22'], ['tower', 'wind 310 at 15'],
    ['station-phone', '310/15'], ['auto', 'VRB05KT'], ['auto', ''], ['bogus', 'x']].map(([kind, text]) => core.readWindReport(kind, text, 'variation=7E')));
  for (const kind of core.reportKinds()) assert.deepEqual(faultsOf(kind, typeNamed('ReportKind'), '', new Set()), []);
});

test('practice and check are what the types say', () => {
  const tutor = core.tutor();
  tutor.today(20000);
  // First tries that were counted, as a progress file has them.
  const kept = JSON.parse(tutor.progress());
  Object.assign(kept.skills.entry, { asked: 9, last: '101', counted: 3, right: 2 });
  assert.deepEqual(tutor.takeProgress(JSON.stringify(kept)), { taken: true, problems: [] });
  /** @type {unknown[]} */
  const states = [tutor.begin({ mode: 'practice', code: '!' })];
  /** @type {unknown[]} */
  const sheets = [tutor.sheet({ code: '?' })];
  for (const [i, { id }] of tutor.sets().entries()) {
    assert.equal(tutor.useSet(id).usable, true);
    sheets.push(tutor.sheet({ code: tutor.newCode(i) }));
    for (const mode of /** @type {const} */ (['practice', 'check'])) {
      let state = tutor.begin({ mode, code: tutor.newCode(7 + i) });
      for (let n = 0; n < 60 && state.stage !== 'done'; ++n) {
        states.push(state);
        const step = state.item?.steps[state.item.asked ?? 0];
        if (n % 7 === 0) states.push(tutor.hint());
        if (n % 11 === 0) states.push(tutor.showMe());
        states.push(tutor.answer(n % 5 === 0 ? 'x' : step?.choices[n % 3]?.value ?? ['94', '5 left', '085 left'][n % 3]));
        state = tutor.next();
      }
      states.push(state);
    }
  }
  agree('TutorState', states, ['TutorState.judged.moved', 'TutorState.judged.moved_words']);
  agree('TutorSheet', sheets);
  const [set] = tutor.sets();
  assert.deepEqual(Object.keys(set), ['id', 'title', 'about']);
  assert.deepEqual(Object.keys(tutor.useSet('{')).sort(), ['id', 'problems', 'title', 'usable', 'version']);
  assert.deepEqual(Object.keys(tutor.takeProgress('x')), ['taken', 'problems']);
  tutor.clearProgress();
});
