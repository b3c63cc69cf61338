// What a course is told, from what the tutor says: words, scores and lengths as SCORM 1.2 has
// them (docs/course.md). Pure functions; nothing here talks to a course.

/** @typedef {import('./types').TutorState} TutorState */
/** @typedef {'lesson' | 'practice' | 'check'} Goal What the package asks for. */
/** @typedef {'incomplete' | 'completed' | 'passed' | 'failed'} Status */

/** Longest suspend data that every course takes, characters. */
export const MOST_SUSPENDED = 4096;

/** What may not be undone: a later status counts only if it stands higher. @type {Record<string, number>} */
const RANK = { incomplete: 1, failed: 2, completed: 3, passed: 4 };

/** "HHHH:MM:SS.SS". Negative and unreadable times are none. @param {number} seconds */
export function sessionTime(seconds) {
  const all = Number.isFinite(seconds) && seconds > 0 ? Math.min(Math.round(seconds), 9999 * 3600) : 0;
  const two = (/** @type {number} */ n) => String(n).padStart(2, '0');
  return `${String(Math.floor(all / 3600)).padStart(4, '0')}:${two(Math.floor(all / 60) % 60)}:${two(all % 60)}.00`;
}

/**
 * The status that a course may be given where it has `before`: never a lower one.
 * @param {string} before As the course has it.
 * @param {Status} now
 */
export const raised = (before, now) => ((RANK[before] ?? 0) >= RANK[now] ? before : now);

/** Of a check with this best score. @param {number} best @param {number | null} mastery @returns {Status} */
export const checkStatus = (best, mastery) => (mastery === null ? 'completed' : best >= mastery ? 'passed' : 'failed');

/** Practice is done when every skill of the set is secure. @param {TutorState} state @returns {Status} */
export function practiceStatus({ skills }) {
  const asked = skills.filter(({ in_set }) => in_set);
  return asked.length && asked.every(({ status }) => status === 'secure' || status === 'kept') ? 'completed' : 'incomplete';
}

/** Names of the objectives by skill. */
export const OBJECTIVES = {
  entry: 'choose-entry', heading: 'entry-heading', wind: 'wind-correction', timing: 'timing', clearance: 'read-clearance',
};

/**
 * @typedef {object} Interaction One answer, as the course records it.
 * @property {string} id @property {string} objective @property {'choice' | 'numeric' | 'fill-in'} type
 * @property {string} response @property {string} pattern @property {'correct' | 'wrong'} result
 */

/**
 * An answer's text in the form of its type: a choice is one small letter, a number has its
 * side as a sign (left is minus).
 * @param {string} kind Of the step. @param {string} text
 */
export function responseOf(kind, text) {
  const plain = text.trim().toLowerCase();
  if (kind === 'choice') return { type: /** @type {const} */ ('choice'), text: plain.slice(0, 1).replace(/[^a-z0-9]/, '') };
  if (kind === 'hold') return { type: /** @type {const} */ ('fill-in'), text: plain.replace(/[^a-z0-9 ]/g, '').slice(0, 255) };
  const clock = /^(\d+):(\d+)/.exec(plain);
  const size = clock ? String(Number(clock[1]) * 60 + Number(clock[2])) : /\d+(?:[.,]\d+)?/.exec(plain)?.[0].replace(',', '.') ?? '';
  const number = size === '' ? '' : String(Number(size));
  const minus = /\b(?:l|left)\b|\dl\b|\bl\d/.test(plain) && Number(number) !== 0;
  return { type: /** @type {const} */ ('numeric'), text: minus ? `-${number}` : number };
}

/**
 * An answer to a step, as it is told: a choice by its value, since its words are of a language.
 * @param {import('./types').TutorStep} step @param {string | null} text
 */
export const responseTo = ({ kind, choices }, text) =>
  responseOf(kind, choices.find(({ label }) => label === text)?.value ?? text ?? '');

/**
 * The answer that was just scored; null where none was.
 * @param {TutorState} state
 * @returns {Interaction | null}
 */
export function interactionOf({ set, code, number, item, judged }) {
  if (!item || !judged || judged.counted !== true || judged.right === null || item.asked === null) return null;
  const step = item.steps[item.asked];
  // In practice every blank of the item counts, not the last alone.
  const right = item.steps.every(({ state }) => state !== 'wrong' && state !== 'shown');
  const given = responseTo(step, step.given);
  return {
    id: `${set.id}-${set.version}-${code}-${number}`.replace(/[^A-Za-z0-9._-]/g, '.').slice(0, 255),
    objective: OBJECTIVES[item.skill],
    type: given.type,
    response: given.text,
    pattern: responseTo(step, judged.right_text).text,
    result: right ? 'correct' : 'wrong',
  };
}

/**
 * What is to be resumed, in no more than MOST_SUSPENDED characters: the oldest checks go first;
 * '' where it does not go in all the same.
 * @param {string} progress The tutor's; may be empty.
 * @param {string[]} lesson Steps of the lesson that were flown.
 */
export function suspended(progress, lesson) {
  const kept = { v: 1, lesson, progress: progress ? JSON.parse(progress) : null };
  for (;;) {
    const text = JSON.stringify(kept);
    if (text.length <= MOST_SUSPENDED) return text;
    if (!kept.progress?.checks?.length) return '';
    kept.progress.checks.shift();
  }
}

/**
 * What suspended() wrote; null where the text is of another make.
 * @param {string} text
 * @returns {{progress: string, lesson: string[]} | null}
 */
export function resumed(text) {
  try {
    const { v, lesson, progress } = JSON.parse(text);
    if (v !== 1 || typeof progress !== 'object') return null;
    return { progress: progress ? JSON.stringify(progress) : '', lesson: Array.isArray(lesson) ? lesson.map(String) : [] };
  } catch {
    return null;
  }
}
