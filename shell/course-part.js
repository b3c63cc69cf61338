// The course's part of the page: one strip that says whether results arrive, a way to save, and
// what to do where they do not. Without a course it is not there.
import { addressKey } from './address.js';
import { byId, write } from './dom.js';
import { findCourse } from './course-find.js';
import { checkStatus, interactionOf, OBJECTIVES, practiceStatus, resumed, suspended } from './course-rules.js';
import { createCourse } from './course.js';
import { say } from './text.js';

/** @typedef {import('./types').TutorState} TutorState */
/** @typedef {import('./course-rules.js').Goal} Goal */

/** What the package's address asks for. @returns {Goal} */
function goalOfAddress() {
  if (addressKey('mode') === 'practice') return addressKey('check') === '1' ? 'check' : 'practice';
  return addressKey('mode') === 'lesson' ? 'lesson' : 'practice';
}

/** @typedef {ReturnType<typeof mountCourse>} CoursePart */

/** Looks for a course, and opens it. */
export function mountCourse() {
  const strip = byId('course', HTMLElement);
  const goal = goalOfAddress();
  // A package says that a course is to be there; a page in the open expects none.
  const expected = addressKey('lms') === '1';
  const fixed = { set: addressKey('set'), code: addressKey('code') };
  /** @type {import('./course.js').Course | null} */
  let course = null;
  /** What is to be resumed later. */
  const kept = { progress: '', lesson: /** @type {string[]} */ ([]) };

  function connect() {
    const api = findCourse(window);
    if (!api) return;
    course = createCourse(api, () => performance.now() / 1000);
    course.open();
    const before = resumed(course.facts.resume);
    if (before) Object.assign(kept, before);
  }

  /** @returns {'none' | 'missing' | 'failed' | 'open' | 'review' | 'finished'} */
  function standing() {
    if (!course) return expected ? 'missing' : 'none';
    const state = course.state();
    if (state === 'unopened') return 'failed';
    return state === 'open' && course.waits() ? 'failed' : state;
  }

  function show() {
    const now = standing();
    const trouble = now === 'missing' || now === 'failed';
    strip.hidden = now === 'none';
    strip.classList.toggle('course-trouble', trouble);
    if (now !== 'none') write(byId('course-said', HTMLElement), say(`page.course.${now}`));
    byId('course-finish', HTMLButtonElement).hidden = now !== 'open';
    byId('course-retry', HTMLButtonElement).hidden = !trouble;
    byId('course-why', HTMLDetailsElement).hidden = !trouble;
    if (trouble) byId('course-diagnosis', HTMLTextAreaElement).value = course?.diagnosis() ?? say('page.course.not_found');
  }

  function save() {
    course?.save();
    show();
  }

  function stageResume() {
    if (course?.state() === 'finished' || course?.state() === 'review') return;
    if (kept.progress || kept.lesson.length) course?.suspend(suspended(kept.progress, kept.lesson));
  }

  function finish() {
    if (!course) return;
    const status = course.status();
    course.finish(status === 'completed' || status === 'passed');
    show();
  }

  byId('course-finish', HTMLButtonElement).addEventListener('click', finish);
  byId('course-retry', HTMLButtonElement).addEventListener('click', () => {
    if (!course) connect();
    save();
  });
  document.addEventListener('visibilitychange', () => {
    if (document.hidden && course?.state() === 'open') save();
  });
  window.addEventListener('pagehide', () => {
    if (course?.state() === 'open') finish();
  });

  connect();
  // Students make no packages.
  byId('to-teach', HTMLElement).hidden = expected || course !== null;
  show();
  return {
    /** Whether a course keeps the progress, in place of the device. */
    keeps: () => course !== null,
    /** Where progress stays while a course shows the page. */
    store: {
      keeps: true,
      words: 'page.course.kept',
      read: () => kept.progress || null,
      /** @param {string} text */
      write(text) {
        kept.progress = text;
        stageResume();
        return true;
      },
      clear() {
        kept.progress = '';
        stageResume();
      },
    },
    /** What the package has set, and the student does not. */
    fixed: course && goal === 'check' ? fixed : { set: null, code: null },
    /** An answer was judged, or an item went on. @param {TutorState} state @param {boolean} is_answer */
    told(state, is_answer) {
      if (!course) return;
      const answer = is_answer ? interactionOf(state) : null;
      if (answer) course.answered(answer);
      if (goal === 'practice') course.want(practiceStatus(state));
      if (goal === 'check' && is_answer && state.result) {
        const best = course.score(state.result.score);
        course.objectives(state.result.skills.map(({ skill, right, of }) => ({
          id: OBJECTIVES[skill], raw: Math.round((100 * right) / of), done: true })));
        course.want(checkStatus(best, course.facts.mastery));
      }
      if (answer) save();
    },
    lesson: {
      /** Steps that were flown before. */
      been: () => kept.lesson,
      /** @param {string[]} steps Flown by now. @param {boolean} all */
      told(steps, all) {
        if (!course) return;
        kept.lesson = steps;
        stageResume();
        if (goal === 'lesson' && all) course.want('completed');
        save();
      },
    },
  };
}
