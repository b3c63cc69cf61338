// Talks to a course by SCORM 1.2: what is to be told waits here until the course has taken it,
// so that a refused call can be made again. Every call may answer "false", or throw.
import { checkStatus, raised, sessionTime } from './course-rules.js';

/**
 * @typedef {object} CourseApi The course's side.
 * @property {(none: '') => string} LMSInitialize
 * @property {(none: '') => string} LMSFinish
 * @property {(key: string) => string} LMSGetValue
 * @property {(key: string, value: string) => string} LMSSetValue
 * @property {(none: '') => string} LMSCommit
 * @property {() => string} LMSGetLastError
 * @property {(code: string) => string} LMSGetErrorString
 * @property {(code: string) => string} LMSGetDiagnostic
 */

/**
 * unopened: not yet, or it could not be opened. review: the course shows the page only to be
 * looked at, and is told nothing. finished: nothing more is told.
 * @typedef {'unopened' | 'open' | 'review' | 'finished'} CourseState
 */

/** @typedef {{call: string, code: string, text: string}} Trouble */
/** Kept for the diagnosis; the newest. */
const MOST_TROUBLES = 30;

const STATUS = 'cmi.core.lesson_status';
const RAW = 'cmi.core.score.raw';

/** What is read at the start; without these nothing may be written over. */
const ESSENTIAL = { mode: 'cmi.core.lesson_mode', status: STATUS, resume: 'cmi.suspend_data' };

/**
 * @param {() => CourseApi | null} find Asked until it answers, and then whether it is still there.
 * @param {() => number} now_s Seconds, for the time spent.
 */
export function createCourse(find, now_s) {
  const began_s = now_s();
  /** @type {CourseApi | null} */
  let found = null;
  let initialized = false;
  /** The end was asked for and not taken. */
  let ending = false;
  /** A refused end may have shut the course all the same: it is to be opened again. */
  let is_shut = false;
  /** @type {CourseState} */
  let state = 'unopened';
  let status = '';
  let interactions = 0;
  /** @type {{mastery: number | null, best: number | null, resume: string}} */
  const facts = { mastery: null, best: null, resume: '' };
  /** Values that the course has not taken yet. @type {Map<string, string>} */
  const wanted = new Map();
  /** @type {import('./course-rules.js').Interaction[]} */
  let answers = [];
  /** What a course may refuse without harm: it need not have these. @type {Map<string, string>} */
  const extras = new Map();
  /** @type {Trouble[]} */
  const troubles = [];
  let uncommitted = false;
  /** Best score from before the course was there. @type {number | null} */
  let unjudged = null;

  /** Whether anything may be told, now or later. */
  const listens = () => state === 'unopened' || state === 'open';

  function course() {
    if (!found) throw new Error('no course');
    // What a closed window leaves behind may answer as before, and keeps nothing.
    if (!find()) throw new Error('the course is gone');
    return found;
  }

  /**
   * @param {string} call For the diagnosis.
   * @param {() => unknown} make
   * @returns {string | null} null: it threw, or there is no such call
   */
  function called(call, make) {
    try {
      return String(make());
    } catch (error) {
      troubles.push({ call, code: '-', text: String(error) });
      return null;
    }
  }

  /** @param {string} call @param {() => unknown} make @returns {boolean} Whether it answered "true". */
  function done(call, make) {
    const answer = called(call, make);
    if (answer === 'true') return true;
    if (answer !== null) {
      const code = called('LMSGetLastError', () => course().LMSGetLastError()) ?? '-';
      const text = [called('LMSGetErrorString', () => course().LMSGetErrorString(code)), called('LMSGetDiagnostic', () => course().LMSGetDiagnostic(code))];
      troubles.push({ call: `${call} → ${answer}`, code, text: text.filter(Boolean).join(' / ') });
    }
    troubles.splice(0, troubles.length - MOST_TROUBLES);
    return false;
  }

  /** null: it threw. */
  const read = (/** @type {string} */ key) => called(`LMSGetValue ${key}`, () => course().LMSGetValue(key));
  const write = (/** @type {string} */ key, /** @type {string} */ value) =>
    done(`LMSSetValue ${key} = ${value.slice(0, 60)}`, () => course().LMSSetValue(key, value));

  /** @param {string | null} text @returns {number | null} */
  const number = (text) => (text?.trim() && Number.isFinite(Number(text)) ? Number(text) : null);

  /** @returns {boolean} Whether the course is there to be told. */
  function open() {
    if (state !== 'unopened') return state === 'open';
    found ??= find();
    if (!found) return false;
    initialized ||= done('LMSInitialize', () => course().LMSInitialize(''));
    if (!initialized) return false;
    const [mode, before, resume] = [read(ESSENTIAL.mode), read(ESSENTIAL.status), read(ESSENTIAL.resume)];
    if (mode === null || before === null || resume === null) return false;
    facts.resume = resume;
    facts.mastery = number(read('cmi.student_data.mastery_score'));
    facts.best = number(read(RAW));
    interactions = number(read('cmi.interactions._count')) ?? 0;
    state = mode === 'browse' || mode === 'review' ? 'review' : 'open';
    if (state === 'review') return false;
    // What was reached before the course was there is no less than what it had.
    const ours = /** @type {import('./course-rules.js').Status | undefined} */ (wanted.get(STATUS));
    wanted.delete(STATUS);
    status = before;
    // Else courses take a page that was opened and closed for one that was done.
    want('incomplete');
    if (ours) want(ours);
    if (unjudged !== null) checked(unjudged);
    unjudged = null;
    if (wanted.has(STATUS)) save();
    return true;
  }

  /** A check is finished: the best score counts, by the course's pass mark. @param {number} score 0 to 100 */
  function checked(score) {
    if (!listens()) return;
    if (state === 'unopened') {
      unjudged = Math.max(score, unjudged ?? 0);
      return;
    }
    const best = Math.round(Math.min(100, Math.max(score, facts.best ?? 0)));
    facts.best = best;
    wanted.set('cmi.core.score.min', '0');
    wanted.set('cmi.core.score.max', '100');
    wanted.set(RAW, String(best));
    want(checkStatus(best, facts.mastery));
  }

  /** @param {import('./course-rules.js').Status} to */
  function want(to) {
    const now = raised(status, to);
    if (now === status || !listens()) return;
    status = now;
    wanted.set(STATUS, now);
  }

  /** One answer; where the course does not keep answers, that is no loss. @param {import('./course-rules.js').Interaction} answer */
  function tell(answer) {
    const at = `cmi.interactions.${interactions}`;
    if (!write(`${at}.id`, answer.id)) return;
    interactions += 1;
    write(`${at}.objectives.0.id`, answer.objective);
    write(`${at}.type`, answer.type);
    write(`${at}.correct_responses.0.pattern`, answer.pattern);
    write(`${at}.student_response`, answer.response);
    write(`${at}.result`, answer.result);
  }

  /**
   * Tells the course all that waits, and has it kept.
   * @returns {boolean} Whether all that counts was taken.
   */
  function save() {
    if (state === 'unopened' && !open()) return false;
    if (state !== 'open') return false;
    // One that is open still refuses this, and listens on.
    if (is_shut) done('LMSInitialize', () => course().LMSInitialize(''));
    is_shut = false;
    for (const [key, value] of [...wanted]) {
      if (write(key, value)) {
        wanted.delete(key);
        uncommitted = true;
      }
    }
    // A course that takes nothing gets the answers later, with what counts.
    if (wanted.size === 0) {
      for (const [key, value] of extras) uncommitted = write(key, value) || uncommitted;
      extras.clear();
      for (const answer of answers) tell(answer);
      uncommitted ||= answers.length > 0;
      answers = [];
    }
    if (uncommitted && done('LMSCommit', () => course().LMSCommit(''))) uncommitted = false;
    return !uncommitted && wanted.size === 0;
  }

  /** What the course has not taken, for the diagnosis. */
  const waiting = () => [...wanted.keys(), ...(answers.length ? [`${answers.length} answers`] : []),
    ...(unjudged === null ? [] : ['a score']), ...(uncommitted ? ['LMSCommit'] : []), ...(ending ? ['LMSFinish'] : [])];

  return {
    open,
    save,
    facts,
    /** @returns {CourseState} */
    state: () => state,
    status: () => status,
    /** Whether a course is there at all. */
    found: () => found !== null,
    /** Whether something has not been taken. */
    waits: () => waiting().length > 0,
    want,
    checked,
    /** @param {string} text As suspended() writes it. */
    suspend(text) {
      if (listens()) wanted.set('cmi.suspend_data', text);
    },
    /** @param {import('./course-rules.js').Interaction} answer */
    answered(answer) {
      if (listens()) answers.push(answer);
    },
    /** @param {{id: string, raw: number, done: boolean}[]} all In an order that does not change. */
    objectives(all) {
      if (!listens()) return;
      all.forEach(({ id, raw, done: is_done }, i) => {
        extras.set(`cmi.objectives.${i}.id`, id);
        extras.set(`cmi.objectives.${i}.score.raw`, String(raw));
        extras.set(`cmi.objectives.${i}.status`, is_done ? 'completed' : 'incomplete');
      });
    },
    /**
     * Tells the time spent and ends; asked again, where that was refused. Once ended, nothing
     * more is told.
     * @param {{ended: boolean, last?: boolean}} how `ended`: there is nothing to come back to;
     *   `last`: the page goes, so that it ends even where not all was taken.
     * @returns {boolean} Whether all was taken.
     */
    finish({ ended, last = false }) {
      if (state !== 'open') return state === 'finished' && wanted.size === 0;
      ending = true;
      wanted.set('cmi.core.session_time', sessionTime(now_s() - began_s));
      wanted.set('cmi.core.exit', ended ? '' : 'suspend');
      const saved = save();
      if (!saved && !last) return false;
      is_shut = !done('LMSFinish', () => course().LMSFinish(''));
      if (is_shut) return false;
      state = 'finished';
      ending = false;
      return saved;
    },
    /** Whether the end was asked for and not taken. */
    ending: () => ending,
    /** What went wrong, to be copied. */
    diagnosis: () => [`state ${state}, status ${status || '-'}, waiting: ${waiting().join(', ') || 'nothing'}`,
      ...troubles.map(({ call, code, text }) => `${call} (error ${code}${text ? `: ${text}` : ''})`)].join('\n'),
  };
}

/** @typedef {ReturnType<typeof createCourse>} Course */
