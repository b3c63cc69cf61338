// A course's side of SCORM 1.2 that takes nothing it need not take, and can fail on demand:
// lengths, vocabularies, order and what may only be written are checked, every call is noted.
// Rules: SCORM 1.2 Run-Time Environment, as docs/course.md lists them.

const STATUS = ['passed', 'completed', 'failed', 'incomplete', 'browsed'];
const READ_ONLY = new Set(['cmi.core.student_id', 'cmi.core.student_name', 'cmi.core.lesson_mode', 'cmi.core.entry',
  'cmi.core.credit', 'cmi.core.total_time', 'cmi.student_data.mastery_score', 'cmi.launch_data', 'cmi.interactions._count',
  'cmi.objectives._count']);
const WRITE_ONLY = new Set(['cmi.core.session_time', 'cmi.core.exit']);
const TIME = /^\d{4}:[0-5]\d:[0-5]\d(\.\d{1,2})?$/;
const ID = /^[A-Za-z0-9._-]{1,255}$/;

/** @type {[RegExp, (value: string) => boolean][]} */
const RULES = [
  [/^cmi\.core\.lesson_status$/, (v) => STATUS.includes(v)],
  [/^cmi\.core\.score\.(raw|min|max)$/, (v) => /^\d{1,3}$/.test(v) && Number(v) <= 100],
  [/^cmi\.core\.session_time$/, (v) => TIME.test(v)],
  [/^cmi\.core\.exit$/, (v) => ['', 'time-out', 'suspend', 'logout'].includes(v)],
  [/^cmi\.suspend_data$/, (v) => v.length <= 4096],
  [/^cmi\.interactions\.\d+\.id$/, (v) => ID.test(v)],
  [/^cmi\.interactions\.\d+\.objectives\.0\.id$/, (v) => ID.test(v)],
  [/^cmi\.interactions\.\d+\.type$/, (v) => ['choice', 'numeric', 'fill-in'].includes(v)],
  [/^cmi\.interactions\.\d+\.(student_response|correct_responses\.0\.pattern)$/, (v) => v.length > 0 && v.length <= 255],
  [/^cmi\.interactions\.\d+\.result$/, (v) => ['correct', 'wrong'].includes(v)],
  [/^cmi\.objectives\.\d+\.id$/, (v) => ID.test(v)],
  [/^cmi\.objectives\.\d+\.score\.raw$/, (v) => /^\d{1,3}$/.test(v) && Number(v) <= 100],
  [/^cmi\.objectives\.\d+\.status$/, (v) => STATUS.includes(v)],
];

/**
 * Works in Node and, turned into text, in a page: nothing from outside but the tables above.
 * @param {{values?: Record<string, string>, fail?: string[]}} [how] `fail`: calls that answer
 *   "false", or `throw:NAME` for calls that throw; `shut:LMSFinish`: refused, and over all the same.
 */
export function strictCourse({ values = {}, fail = [] } = {}) {
  /** @type {Record<string, string>} */
  const data = {
    'cmi.core.lesson_mode': 'normal', 'cmi.core.lesson_status': 'not attempted', 'cmi.core.entry': 'ab-initio',
    'cmi.core.score.raw': '', 'cmi.suspend_data': '', 'cmi.student_data.mastery_score': '', ...values,
  };
  /** @type {string[]} */
  const calls = [];
  /** @type {Record<string, string>} */
  let kept = { ...data };
  let at = 'closed';
  let error = '0';
  const failing = new Set(fail);
  const count = (/** @type {string} */ what) => Object.keys(data).filter((key) => new RegExp(`^cmi\\.${what}\\.\\d+\\.id$`).test(key)).length;

  /** @param {string} name @param {string} note @param {() => string} work */
  function call(name, note, work) {
    calls.push(note ? `${name} ${note}` : name);
    if (failing.has(`throw:${name}`)) throw new Error(`${name} throws`);
    error = '0';
    if (failing.has(name)) {
      error = '101';
      return 'false';
    }
    return work();
  }
  /** @param {string} code @param {string} [answer] */
  const refuse = (code, answer = 'false') => {
    error = code;
    return answer;
  };

  const api = {
    LMSInitialize: (/** @type {string} */ none) => call('LMSInitialize', '', () => {
      if (none !== '') return refuse('201');
      if (at !== 'closed') return refuse('101');
      at = 'open';
      return 'true';
    }),
    LMSFinish: (/** @type {string} */ none) => call('LMSFinish', '', () => {
      if (none !== '') return refuse('201');
      if (at !== 'open') return refuse('301');
      if (failing.has('shut:LMSFinish')) {
        at = 'closed';
        return refuse('101');
      }
      at = 'finished';
      kept = { ...data };
      return 'true';
    }),
    LMSCommit: (/** @type {string} */ none) => call('LMSCommit', '', () => {
      if (none !== '') return refuse('201');
      if (at !== 'open') return refuse('301');
      kept = { ...data };
      return 'true';
    }),
    LMSGetValue: (/** @type {string} */ key) => call('LMSGetValue', key, () => {
      if (at !== 'open') return refuse('301', '');
      if (key === 'cmi.interactions._count') return String(count('interactions'));
      if (key === 'cmi.objectives._count') return String(count('objectives'));
      if (WRITE_ONLY.has(key) || key.startsWith('cmi.interactions.')) return refuse('404', '');
      if (!(key in data)) return refuse('401', '');
      return data[key];
    }),
    LMSSetValue: (/** @type {string} */ key, /** @type {unknown} */ value) => call('LMSSetValue', `${key}=${value}`, () => {
      if (at !== 'open') return refuse('301');
      if (READ_ONLY.has(key)) return refuse('403');
      const rule = RULES.find(([pattern]) => pattern.test(key));
      if (!rule) return refuse('401');
      if (typeof value !== 'string' || !rule[1](value)) return refuse('405');
      const [, what, index] = /^cmi\.(interactions|objectives)\.(\d+)\./.exec(key) ?? [];
      if (what && (Number(index) > count(what) || (Number(index) === count(what) && !key.endsWith(`${index}.id`)))) return refuse('201');
      data[key] = value;
      return 'true';
    }),
    LMSGetLastError: () => {
      calls.push('LMSGetLastError');
      return error;
    },
    LMSGetErrorString: (/** @type {string} */ code) => `error ${code}`,
    LMSGetDiagnostic: () => '',
  };
  return {
    api,
    calls,
    /** What survives: committed or finished. */
    kept: () => kept,
    state: () => at,
    /** @param {string} name @param {boolean} on */
    fail(name, on) {
      if (on) failing.add(name);
      else failing.delete(name);
    },
  };
}
