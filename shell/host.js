// Talks with the page that has this one in a frame: docs/embedding.md has the messages. Off unless
// the address names that page's origin (`host=https://…`): only its window is listened to, and
// only it is answered.
import { addressKey, sceneOf, sharedAddress } from './address.js';
import build from './build.js';
import { responseTo } from './course-rules.js';
import { byId, write } from './dom.js';
import { fixAt } from './instructor.js';
import { originOf } from './origin.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').TutorState} TutorState */

const LESSON = 'holding-entry';
const VERSION = 1;
/** Messages handled in a second; of the scenes beyond them the last is shown when it is over. */
const MOST_A_SECOND = 20;
const SECOND_MS = 1000;
/** Longest link text that a scene may have, and longest mark of a message. */
const MOST_LINK = 2000;
const MOST_ID = 64;

/** A mark that is given back with the answer; anything else is none. @param {unknown} id */
const idOf = (id) => (Number.isSafeInteger(id) || (typeof id === 'string' && id.length <= MOST_ID) ? { id } : {});

/** What was answered just now; null where nothing was. @param {TutorState} state */
export function answerOf(state) {
  const { mode, set, code, number, of, item, judged } = state;
  if (!item || !judged || judged.right === null || item.asked === null) return null;
  const step = item.steps[item.asked];
  return { mode, set: set.id, code, number, of, skill: item.skill, step: step.id, right: judged.right,
    counted: judged.counted === true, given: responseTo(step, step.given).text, expected: responseTo(step, judged.right_text).text };
}

/** Of a check that is over; else null. @param {TutorState} state */
export function resultOf({ result, set, code }) {
  if (!result) return null;
  const { right, of, score, skills } = result;
  return { set: set.id, code, right, of, score,
    skills: skills.map(({ skill, right: well, of: asked }) => ({ skill, right: well, of: asked })) };
}

/**
 * @param {Hub} hub
 * @param {import('./types').Core} core
 * @param {{goTo(name: string): boolean, opened(): string}} modes
 * @param {() => void} writeAddress
 */
export function mountHost(hub, core, modes, writeAddress) {
  const origin = originOf(addressKey('host'));
  const host = window.parent;
  const { session } = hub;
  const nothing = { ready() {}, mode() {}, told(/** @type {TutorState} */ _) {} };
  // Where the browser says who frames the page, a stranger is not even called.
  const stranger = (location.ancestorOrigins?.[0] ?? origin) !== origin;
  if (origin === null || host === window || stranger) return nothing;

  const said = byId('host-said', HTMLElement);
  write(said, say('page.host.said', { host: origin }));
  said.hidden = false;

  /** @param {string} kind @param {Record<string, unknown>} [more] */
  function tell(kind, more = {}) {
    host.postMessage({ lesson: LESSON, v: VERSION, kind, ...more }, /** @type {string} */ (origin));
  }

  /** The person's own scene, as the page has it. */
  const scene = () => ({ link: hub.link(), address: sharedAddress(hub.link()) });
  const standing = () => ({ build, mode: modes.opened(), ...scene() });

  /** Of a message that was answered before its scene settles: that is not told again. @type {string | null} */
  let answered = null;

  /** @type {Record<string, (message: Record<string, unknown>) => void | Promise<void>>} */
  const doing = {
    hello: ({ id }) => tell('ready', { ...standing(), ...idOf(id) }),
    scene({ link, id }) {
      if (typeof link !== 'string' || link.length > MOST_LINK) return tell('problem', { problem: 'link', ...idOf(id) });
      const wanted = sceneOf(link);
      // What is fixed is fixed at what the host says from now on.
      fixAt(hub, wanted);
      hub.open(wanted);
      writeAddress();
      const { problems, link: taken } = core.evaluate(wanted);
      answered = taken;
      tell('scene', { link: taken, problems, ...idOf(id) });
    },
    mode({ mode, id }) {
      if (typeof mode !== 'string' || !modes.goTo(mode)) tell('problem', { problem: 'mode', ...idOf(id) });
    },
    async report({ id }) {
      await core.more();
      tell('report', { ...scene(), report: core.evaluate(hub.link()), ...idOf(id) });
    },
  };

  // --- floods ---------------------------------------------------------------------

  let handled = 0;
  let window_timer = 0;
  let refused = false;
  /** @type {Record<string, unknown> | null} */
  let last_scene = null;

  function nextSecond() {
    window_timer = 0;
    handled = 0;
    refused = false;
    const late = last_scene;
    last_scene = null;
    if (late) handle(late);
  }

  /** @param {Record<string, unknown>} message */
  function handle(message) {
    window_timer ||= window.setTimeout(nextSecond, SECOND_MS);
    if (handled >= MOST_A_SECOND) {
      if (message.kind === 'scene') last_scene = message;
      if (!refused) tell('problem', { problem: 'too-many', ...idOf(message.id) });
      refused = true;
      return;
    }
    handled += 1;
    const { v, kind, id } = message;
    if (v !== VERSION) tell('problem', { problem: 'version', ...idOf(id) });
    else if (typeof kind !== 'string' || !Object.hasOwn(doing, kind)) tell('problem', { problem: 'kind', ...idOf(id) });
    else doing[kind](message);
  }

  window.addEventListener('message', (event) => {
    if (event.source !== host || event.origin !== origin) return;
    const { data } = event;
    // Other parts of the host may talk to all its frames in their own ways.
    if (typeof data !== 'object' || data === null || data.lesson !== LESSON) return;
    handle(data);
  });

  // --- what happens here ------------------------------------------------------------

  let is_ready = false;
  let playing = false;
  hub.add({
    settled(report) {
      // Scenes of the lesson and of practice are not the person's.
      if (session.link() !== hub.link()) return;
      if (report.link !== answered) tell('scene', { link: report.link, problems: report.problems });
      answered = null;
    },
    clock(live) {
      if (live.playing && !playing) tell('played');
      if (!live.playing && playing && live.t_s >= live.end_s) tell('flown');
      playing = live.playing;
    },
  });
  return {
    /** The page stands. */
    ready() {
      is_ready = true;
      tell('ready', standing());
    },
    /** Another mode was opened; the first is told by `ready`. */
    mode() {
      if (is_ready) tell('mode', { mode: modes.opened() });
    },
    /** An answer was judged. @param {TutorState} state */
    told(state) {
      const answer = answerOf(state);
      if (answer) tell('answer', answer);
      const result = resultOf(state);
      if (result) tell('check', result);
    },
  };
}
