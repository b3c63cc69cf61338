// The course's part of the page: one strip that says whether results arrive, a way to save, and
// what to do where they do not. Without a course it is not there.
import { addressKey, queryKey } from './address.js';
import { byId, onLastClick, write } from './dom.js';
import { findCourse } from './course-find.js';
import { interactionOf, OBJECTIVES, practiceStatus, resumed, suspended } from './course-rules.js';
import { mountHere } from './course-here.js';
import { createCourse } from './course.js';
import { say } from './text.js';

/** @typedef {import('./types').TutorState} TutorState */
/** @typedef {import('./course-rules.js').Goal} Goal */

/** @type {readonly Goal[]} */
const GOALS = ['lesson', 'practice', 'check'];

/** What the package's address asks for; of one without the word for it, where it begins. @returns {Goal} */
function goalOfAddress() {
  const said = GOALS.find((goal) => goal === queryKey('lms'));
  if (said) return said;
  if (addressKey('mode') === 'practice') return addressKey('check') === '1' ? 'check' : 'practice';
  return addressKey('mode') === 'lesson' ? 'lesson' : 'practice';
}

/** @typedef {ReturnType<typeof mountCourse>} CoursePart */

/**
 * Looks for a course, and opens it.
 * @returns What the modes tell it, and where progress stays.
 */
export function mountCourse() {
  const strip = byId('course', HTMLElement);
  const goal = goalOfAddress();
  // A package says that a course is to be there; a page in the open expects none.
  const expected = addressKey('lms') !== null;
  const course = createCourse(() => findCourse(window), () => performance.now() / 1000);
  /** What is to be resumed later. */
  const kept = { progress: '', lesson: /** @type {string[]} */ ([]) };
  /** Something was done since the page was opened. */
  let is_begun = false;
  const showHere = mountHere(retry);
  /** Told where the course is found later than the page. @type {() => void} */
  let onOpened = () => {};

  /** Opens the course, where it is there and not open yet, and takes up what it has kept. */
  function connect() {
    if (course.state() !== 'unopened') return;
    course.open();
    if (course.state() === 'unopened') return;
    const before = resumed(course.facts.resume);
    if (before) {
      kept.progress = before.progress;
      kept.lesson = [...new Set([...before.lesson, ...kept.lesson])];
    }
    onOpened();
  }

  /** @returns {'none' | 'missing' | 'failed' | 'open' | 'review' | 'finished'} */
  function standing() {
    const state = course.state();
    if (!course.found()) return expected ? 'missing' : 'none';
    if (state === 'unopened') return 'failed';
    if (state === 'review') return 'review';
    return course.waits() ? 'failed' : state;
  }

  /** What the line beside the last answer says. @param {ReturnType<typeof standing>} now */
  function here(now) {
    const { best, mastery } = course.facts;
    const status = course.status();
    const is_judged = goal === 'check' && best !== null && (status === 'passed' || status === 'failed' || status === 'completed');
    return now === 'open' && is_judged
      ? say(`page.course.here.${status === 'failed' ? 'below' : status}`, { score: best, mark: mastery ?? '' }) : say(`page.course.here.${now}`);
  }

  function show() {
    const now = standing();
    const trouble = now === 'missing' || now === 'failed';
    const open = course.state() !== 'finished';
    strip.hidden = now === 'none';
    strip.classList.toggle('course-trouble', trouble);
    if (now !== 'none') write(byId('course-said', HTMLElement), say(`page.course.${now === 'failed' && !open ? 'lost' : now}`));
    byId('course-finish', HTMLButtonElement).hidden = now !== 'open';
    byId('course-retry', HTMLButtonElement).hidden = !trouble || !open;
    byId('course-why', HTMLDetailsElement).hidden = !trouble;
    showHere(is_begun && now !== 'none' ? here(now) : '', trouble && open);
    if (trouble) {
      byId('course-diagnosis', HTMLTextAreaElement).value =
        [...(course.found() ? [] : [say('page.course.not_found')]), course.diagnosis()].join('\n');
    }
  }

  /** Not before what the course has kept was taken up. */
  function stageResume() {
    if (course.state() === 'unopened' || !(kept.progress || kept.lesson.length)) return;
    const text = suspended(kept.progress, kept.lesson);
    if (text) course.suspend(text);
  }

  function save() {
    connect();
    course.save();
    show();
  }

  /** @param {boolean} [last] The page goes. */
  function finish(last = false) {
    const status = course.status();
    course.finish({ ended: status === 'completed' || status === 'passed', last });
    show();
  }

  function retry() {
    if (course.ending()) finish();
    else save();
  }

  for (const [id, work] of /** @type {[string, () => void][]} */ ([['course-finish', () => finish()], ['course-retry', retry]])) {
    onLastClick(byId(id, HTMLButtonElement), work, byId('course-said', HTMLElement));
  }
  document.addEventListener('visibilitychange', () => {
    if (document.hidden && course.state() === 'open') save();
  });
  window.addEventListener('pagehide', () => {
    if (course.state() === 'open') finish(true);
  });

  connect();
  const is_there = () => expected || course.found();
  // Students make no packages.
  byId('to-teach', HTMLElement).hidden = is_there();
  show();
  return {
    /** Whether a course keeps the progress, in place of the device. */
    keeps: () => course.state() !== 'unopened',
    /** Where progress stays while a course shows the page. */
    store: {
      keeps: true,
      words: 'page.course.kept',
      read: () => kept.progress || null,
      isChangedBy: () => false,
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
    /** What the course asks for; null without one. @type {Goal | null} */
    goal: is_there() ? goal : null,
    /** What the package has set, and the student does not. */
    fixed: is_there() && goal !== 'lesson'
      ? { set: queryKey('lms-set') ?? addressKey('set'), code: queryKey('lms-code') ?? addressKey('code') } : { set: null, code: null },
    /** @param {() => void} then The course was found at last: it keeps the progress now. */
    opened(then) {
      onOpened = then;
    },
    /** An answer was judged, or an item went on. @param {TutorState} state @param {boolean} is_answer */
    told(state, is_answer) {
      if (!is_there()) return;
      const answer = is_answer ? interactionOf(state) : null;
      if (answer) course.answered(answer);
      if (goal === 'practice') course.want(practiceStatus(state));
      if (goal === 'check' && is_answer && state.result) {
        course.objectives(state.result.skills.map(({ skill, right, of }) => ({
          id: OBJECTIVES[skill], raw: Math.round((100 * right) / of), done: true })));
        course.checked(state.result.score);
      }
      if (!is_answer) return;
      is_begun = true;
      save();
    },
    lesson: {
      /** Steps that were flown before. */
      been: () => kept.lesson,
      /** @param {string[]} flown By now. @param {string[]} all Of the lesson. */
      told(flown, all) {
        if (!is_there()) return;
        kept.lesson = [...new Set([...kept.lesson, ...flown])];
        is_begun = true;
        connect();
        stageResume();
        if (goal === 'lesson' && all.every((step) => kept.lesson.includes(step))) course.want('completed');
        save();
      },
    },
  };
}
