// The mode "Practice", with the check in it. What is asked, what is right and what counts is
// the tutor's, in the core; here are the fields, the words and the picture beside them.
import { addressKey } from './address.js';
import { announce } from './announce.js';
import { byId, onSubmit, write } from './dom.js';
import { el, toNode } from './markup.js';
import { patcher } from './patch.js';
import { answerForm, answerText, resultParts, said, skillRows, stepRows } from './practice-markup.js';
import { answersOf } from './practice-answers.js';
import { mountProgress } from './practice-progress.js';
import { mountSetChoice } from './practice-set.js';
import { mountSheet } from './practice-sheet.js';
import { createStore, today } from './practice-store.js';
import { createStage } from './stage.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').Core} Core */
/** @typedef {import('./types').TutorState} TutorState */
/** @typedef {import('./types').SkillName} SkillName */

/** Whether the item is over: its last answer was judged, or shown. @param {TutorState} state */
const isOver = ({ judged }) => judged !== null && judged.counted !== null;

/** The flight of the right answer, where it is another than the student's. @param {TutorState} state */
function rightBeside(state) {
  const { judged } = state;
  if (!judged || !isOver(state) || !judged.student_link) return null;
  return judged.right_link === judged.student_link ? null : judged.right_link;
}

/**
 * @param {Hub} hub
 * @param {Core} core
 * @param {() => void} writeAddress Set or code changed.
 * @param {import('./course-part.js').CoursePart} course
 * @returns {import('./modes.js').Mode}
 */
export function practiceMode(hub, core, writeAddress, course) {
  const { session } = hub;
  const tutor = core.tutor();
  const stage = createStage(hub);
  const start = byId('practice-start', HTMLFormElement);
  const form = byId('practice-form', HTMLFormElement);
  const item = byId('practice-item', HTMLElement);
  const result = byId('practice-result', HTMLElement);
  const question = byId('practice-question', HTMLElement);
  const code = byId('practice-code', HTMLInputElement);
  const next = byId('practice-next', HTMLButtonElement);
  const showSteps = patcher(byId('practice-steps', HTMLElement));
  const showSaid = patcher(byId('practice-said', HTMLElement));
  const showSkills = patcher(byId('practice-skills', HTMLElement));
  const showResult = patcher(result);
  const sets = mountSetChoice(tutor, () => {
    show(tutor.state());
    writeAddress();
  });
  const progress = mountProgress(tutor, stop, () => (course.keeps() ? course.store : createStore()));
  /** Of the check that is done. @type {ReturnType<typeof answersOf>} */
  let answers = null;
  /** The set that the address names may still be on its way. @type {Promise<void>} */
  let ready = Promise.resolve();
  /** The address asked for the check. */
  let check_asked = false;
  let is_set_up = false;
  course.opened(() => {
    progress.moved();
    code.value = course.fixed.code ?? waiting() ?? code.value;
  });
  mountSheet(tutor, { ready: () => ready, code: () => code.value, keys: sets.keys.bind(sets), has_address: () => sets.name() !== null });

  /** Code of the check that waits in the course. @returns {string | null} */
  const waiting = () => (course.keeps() ? JSON.parse(tutor.progress()).open_check?.code ?? null : null);
  const newCode = () => tutor.newCode(crypto.getRandomValues(new Uint32Array(1))[0]);

  // --- the picture -----------------------------------------------------------------

  /** @param {TutorState} state */
  function picture(state) {
    const { stage: at, item: asked, judged } = state;
    const over = isOver(state);
    const right = rightBeside(state);
    // Of a worked clearance the hold is to be seen, and nothing flown in it.
    const flown = over || (at === 'read' && asked?.skill !== 'clearance');
    // A clearance is read before its hold is seen.
    document.body.toggleAttribute('data-no-picture', at !== 'none' && at !== 'done' && !over && !asked?.link);
    // On a small screen the flights stay in view beside the words.
    document.body.toggleAttribute('data-flown', over);
    hub.change(session.pause());
    hub.change(session.beside('', ''));
    const scene = over ? judged?.student_link ?? judged?.right_link : asked?.link;
    if (scene) hub.borrow(scene);
    hub.ask(Boolean(asked) && at !== 'done' && !flown);
    if (right) hub.change(session.beside(right, say('page.practice.right_track')));
    hub.change(session.seek(flown ? session.live().end_s : 0));
    hub.change(session.fit());
  }

  function uncover() {
    for (const name of ['data-no-picture', 'data-flown']) document.body.removeAttribute(name);
  }

  // --- what is in view --------------------------------------------------------------

  /** @param {TutorState} state */
  function show(state) {
    const { mode, stage: at, item: asked, judged, number, of } = state;
    const running = mode !== 'none' && at !== 'done';
    start.hidden = mode !== 'none';
    item.hidden = !running;
    result.hidden = at !== 'done';
    showSkills(skillRows(state.skills));
    answers = at === 'done' ? answersOf(state) : null;
    showResult(state.result && answers ? [...resultParts(state.result), ...answers.trees, el('p', { class: 'practice-ways' },
      el('button', { type: 'button', class: 'main-button', 'data-do': 'again' }, say(course.fixed.code === null ? 'page.practice.again' : 'page.practice.again_same')),
      el('button', { type: 'button', class: 'quiet-button', 'data-do': 'back' }, say('page.practice.back')))] : []);
    if (!running || !asked) return;
    const words = [of === null ? say('page.practice.number', { n: number }) : say('page.practice.number_of', { n: number, of }),
      asked.label, mode === 'check' ? '' : asked.level_words];
    write(byId('practice-head', HTMLElement), words.filter(Boolean).join(' · '));
    write(question, asked.question);
    showSteps(stepRows(state));
    const ask = at === 'ask' ? answerForm(state) : null;
    form.replaceChildren(...(ask ? [toNode(ask)] : []));
    showSaid(at === 'feedback' && judged ? [said(judged, rightBeside(state) !== null)] : []);
    next.hidden = !state.can.next;
    write(next, say(at === 'read' ? 'page.practice.read' : isOver(state) ? 'page.practice.next' : 'page.practice.next_step'));
    write(byId('practice-stop', HTMLElement), say(mode === 'check' ? 'page.practice.stop_check' : 'page.practice.stop'));
  }

  /** @param {TutorState} state @param {HTMLElement | null} focus What is new. @param {boolean} is_answer */
  function go(state, focus, is_answer) {
    show(state);
    picture(state);
    progress.save();
    course.told(state, is_answer);
    focus?.focus();
  }

  /** @param {TutorState} state */
  const asks = (state) => go(state, state.stage === 'done' ? result : question, false);

  /** @param {TutorState} state */
  function judgedNow(state) {
    const { judged } = state;
    if (judged && !judged.readable) {
      const unread = byId('practice-unread', HTMLElement);
      write(unread, judged.why_unreadable ?? '');
      unread.hidden = false;
      form.querySelector('input')?.focus();
      return;
    }
    go(state, null, true);
    announce(judged?.words[0] ?? '');
    byId('practice-verdict', HTMLElement).focus();
  }

  // --- the start ---------------------------------------------------------------------

  function setUp() {
    is_set_up = true;
    progress.read();
    sets.offer();
    // A check that waits in the course goes on: another code would begin another.
    code.value = waiting() ?? newCode();
    const { fixed } = course;
    if (fixed.set) {
      write(byId('practice-asked', HTMLElement), say('page.course.asked'));
      write(byId('practice-fixed', HTMLElement), say(fixed.code ? 'page.course.fixed' : 'page.course.fixed.set'));
    }
    byId('practice-fixed', HTMLElement).hidden = !fixed.set;
    sets.fix(fixed.set !== null);
    // A course is not given the key to its own questions, nor progress from elsewhere.
    for (const part of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll('#mode-practice [data-alone]'))) part.hidden = course.goal !== null;
    for (const control of [code, byId('practice-new-code', HTMLButtonElement)]) control.disabled = fixed.code !== null;
    byId('practice-which', HTMLElement).replaceChildren(...tutor.state().skills.map(({ skill, label }) => toNode(
      el('label', { class: 'check' }, el('input', { type: 'checkbox', name: 'practice-skill', value: skill, checked: true }), el('span', {}, label)))));
  }

  /** Set and code that the address names; what runs goes on where it names neither, or these. */
  function follow() {
    const named = { code: course.fixed.code ?? addressKey('code'), set: course.fixed.set ?? addressKey('set') };
    if (named.code === null && named.set === null) return;
    check_asked = addressKey('check') === '1' || course.goal === 'check';
    const asked = byId('practice-asked', HTMLElement);
    asked.hidden = !check_asked;
    start.classList.toggle('asks-check', check_asked);
    // A file of the person's own has no address: one that names no set leaves it.
    const set = named.set ?? (sets.name() === null ? null : sets.first);
    const same = set === sets.name() && (named.code ?? code.value) === code.value;
    if (same) return;
    if (tutor.state().mode !== 'none') stop();
    code.value = named.code ?? code.value;
    if (set !== null) ready = sets.use(set);
  }

  /** @param {'practice' | 'check'} mode */
  async function begin(mode) {
    await ready;
    const problem = byId('practice-problem', HTMLElement);
    /** @param {string} words */
    const refuse = (words) => {
      problem.hidden = words === '';
      write(problem, words);
      if (words) code.focus();
    };
    if (course.fixed.set !== null && sets.name() !== course.fixed.set) {
      refuse(say('page.course.no_set'));
      return;
    }
    const skills = /** @type {SkillName[]} */ (new FormData(start).getAll('practice-skill').map(String));
    tutor.today(today());
    const state = tutor.begin({ mode, code: code.value, skills: mode === 'practice' ? skills : [] });
    // Skills that the set does not have are left out; that is no reason not to begin.
    const refused = state.mode === 'none';
    refuse(refused ? state.problems.map(({ message }) => message).join(' ') : '');
    if (refused) return;
    asks(state);
  }

  /** Ends what runs; the start is in view again. */
  function stop() {
    show(tutor.stop());
    uncover();
    hub.change(session.beside('', ''));
    hub.ask(false);
  }

  function leave() {
    stop();
    progress.save();
    byId('practice-title', HTMLElement).focus();
  }

  code.addEventListener('change', writeAddress);
  byId('practice-new-code', HTMLButtonElement).addEventListener('click', () => {
    code.value = newCode();
    writeAddress();
  });
  onSubmit(start, () => begin('practice'));
  byId('practice-check', HTMLButtonElement).addEventListener('click', () => begin('check'));

  onSubmit(form, () => judgedNow(tutor.answer(answerText(form))));
  form.addEventListener('click', (event) => {
    const id = event.target instanceof Element ? event.target.closest('button')?.id : undefined;
    if (id === 'practice-hint') {
      const state = tutor.hint();
      show(state);
      announce(state.item?.hints.at(-1) ?? '');
      form.querySelector('input')?.focus();
    }
    if (id === 'practice-show') judgedNow(tutor.showMe());
  });
  next.addEventListener('click', () => asks(tutor.next()));
  byId('practice-stop', HTMLButtonElement).addEventListener('click', leave);
  result.addEventListener('click', (event) => {
    const what = event.target instanceof Element ? event.target.closest('[data-do]')?.getAttribute('data-do') : null;
    if (what === 'again') {
      if (course.fixed.code === null) code.value = newCode();
      writeAddress();
      begin('check');
    }
    if (what === 'back') leave();
    if (what === 'csv') answers?.save();
    if (what === 'line') answers?.copy();
  });

  return {
    open() {
      stage.set();
      tutor.today(today());
      if (!is_set_up) setUp();
      progress.back();
      follow();
      const state = tutor.state();
      show(state);
      if (state.mode !== 'none') picture(state);
    },
    close() {
      uncover();
      stage.strike();
    },
    address: follow,
    keys: () => ({ ...sets.keys(), ...(code.value ? { code: code.value } : {}), ...(check_asked ? { check: '1' } : {}) }),
  };
}
