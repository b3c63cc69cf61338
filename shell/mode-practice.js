// The mode "Practice", with the check in it. What is asked, what is right and what counts is
// the tutor's, in the core; here are the fields, the words and the picture beside them.
import { addressKey } from './address.js';
import { announce } from './announce.js';
import { byId, write } from './dom.js';
import { el, toNode } from './markup.js';
import { patcher } from './patch.js';
import { answerForm, answerText, resultParts, said, skillRows, stepRows } from './practice-markup.js';
import { createStore, download, today } from './practice-store.js';
import { createStage } from './stage.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').Core} Core */
/** @typedef {import('./types').TutorState} TutorState */
/** @typedef {import('./types').SkillName} SkillName */

const FILE_NAME = 'holding-practice.json';

/** Whether the item is over: its last answer was judged, or shown. @param {TutorState} state */
const isOver = ({ judged }) => judged !== null && judged.counted !== null;

/** The flight of the right answer, where it is another than the student's. @param {TutorState} state */
function rightBeside(state) {
  const { judged } = state;
  if (!judged || !isOver(state) || !judged.student_link) return null;
  return judged.right_link === judged.student_link ? null : judged.right_link;
}

/** @param {Hub} hub @param {Core} core @returns {import('./modes.js').Mode} */
export function practiceMode(hub, core) {
  const { session } = hub;
  const tutor = core.tutor();
  const stage = createStage(hub);
  const start = byId('practice-start', HTMLFormElement);
  const form = byId('practice-form', HTMLFormElement);
  const item = byId('practice-item', HTMLElement);
  const result = byId('practice-result', HTMLElement);
  const question = byId('practice-question', HTMLElement);
  const chosen = byId('practice-set', HTMLSelectElement);
  const code = byId('practice-code', HTMLInputElement);
  const next = byId('practice-next', HTMLButtonElement);
  const showSteps = patcher(byId('practice-steps', HTMLElement));
  const showSaid = patcher(byId('practice-said', HTMLElement));
  const showSkills = patcher(byId('practice-skills', HTMLElement));
  const showResult = patcher(result);
  /** Made when the mode is first opened. @type {ReturnType<typeof createStore> | null} */
  let store = null;
  /** The built-in ones; looked up then too. @type {ReturnType<typeof tutor.sets>} */
  let sets = [];
  /** A set from a file cannot be named in the address. */
  let from_file = false;
  let read = false;

  const newCode = () => tutor.newCode(crypto.getRandomValues(new Uint32Array(1))[0]);

  /** @param {string} id @param {{key: string, message: string}[]} problems */
  function list(id, problems) {
    byId(id, HTMLElement).replaceChildren(...problems.map(({ message }) => toNode(el('li', {}, message))));
  }

  function save() {
    const kept = store?.write(tutor.progress());
    write(byId('practice-kept', HTMLElement), say(kept ? 'page.practice.kept' : 'page.practice.not_kept'));
  }

  // --- the picture -----------------------------------------------------------------

  /** @param {TutorState} state */
  function picture(state) {
    const { stage: at, item: asked, judged } = state;
    const over = isOver(state);
    const right = rightBeside(state);
    // A clearance is read before its hold is seen.
    document.body.toggleAttribute('data-no-picture', at !== 'none' && at !== 'done' && !over && !asked?.link);
    hub.change(session.pause());
    hub.change(session.beside('', ''));
    const scene = over ? judged?.student_link ?? judged?.right_link : asked?.link;
    if (scene) hub.borrow(scene);
    hub.ask(Boolean(asked) && at !== 'read' && at !== 'done' && !over);
    if (right) hub.change(session.beside(right, say('page.practice.right_track')));
    hub.change(session.seek(over || at === 'read' ? session.live().end_s : 0));
    hub.change(session.fit());
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
    showResult(state.result && at === 'done' ? [...resultParts(state.result), el('p', { class: 'practice-ways' },
      el('button', { type: 'button', class: 'main-button', 'data-do': 'again' }, say('page.practice.again')),
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

  /** @param {TutorState} state @param {HTMLElement | null} focus What is new. */
  function go(state, focus) {
    show(state);
    picture(state);
    save();
    focus?.focus();
  }

  /** @param {TutorState} state */
  const asks = (state) => go(state, state.stage === 'done' ? result : question);

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
    go(state, null);
    announce(judged?.words[0] ?? '');
    byId('practice-verdict', HTMLElement).focus();
  }

  // --- the start ---------------------------------------------------------------------

  /** @param {ReturnType<typeof tutor.useSet>} set */
  function took(set) {
    list('practice-set-problems', set.problems);
    write(byId('practice-set-about', HTMLElement),
      sets.find(({ id }) => id === set.id)?.about ?? say('page.practice.set.own', { title: set.title }));
    show(tutor.state());
  }

  function setUp() {
    store = createStore();
    sets = tutor.sets();
    chosen.replaceChildren(...sets.map(({ id, title }) => toNode(el('option', { value: id }, title))));
    chosen.value = 'mixed';
    byId('practice-which', HTMLElement).replaceChildren(...tutor.state().skills.map(({ skill, label }) => toNode(
      el('label', { class: 'check' }, el('input', { type: 'checkbox', name: 'practice-skill', value: skill, checked: true }), el('span', {}, label)))));
  }

  /** A set named by the address: a built-in one, or a file of the same server. @param {string} name */
  async function linked(name) {
    if (sets.some(({ id }) => id === name)) {
      chosen.value = name;
      took(tutor.useSet(name));
      return;
    }
    const url = new URL(name, location.href);
    try {
      if (url.origin !== location.origin) throw new Error(url.origin);
      const answer = await fetch(url);
      if (!answer.ok) throw new Error(String(answer.status));
      from_file = true;
      took(tutor.useSet(await answer.text()));
    } catch {
      list('practice-set-problems', [{ key: 'set', message: say('page.practice.set.unread', { name }) }]);
    }
  }

  /** @param {'practice' | 'check'} mode */
  function begin(mode) {
    const skills = /** @type {SkillName[]} */ (new FormData(start).getAll('practice-skill').map(String));
    tutor.today(today());
    const state = tutor.begin({ mode, code: code.value, skills: mode === 'practice' ? skills : [] });
    const problem = byId('practice-problem', HTMLElement);
    problem.hidden = state.problems.length === 0;
    write(problem, state.problems.map(({ message }) => message).join(' '));
    if (state.problems.length) {
      code.focus();
      return;
    }
    asks(state);
  }

  function stop() {
    show(tutor.stop());
    document.body.removeAttribute('data-no-picture');
    hub.change(session.beside('', ''));
    hub.ask(false);
    save();
    byId('practice-title', HTMLElement).focus();
  }

  chosen.addEventListener('change', () => {
    from_file = false;
    took(tutor.useSet(chosen.value));
  });
  byId('practice-file', HTMLInputElement).addEventListener('change', async (event) => {
    const file = /** @type {HTMLInputElement} */ (event.target).files?.[0];
    if (!file) return;
    const set = tutor.useSet(await file.text());
    from_file = set.usable;
    took(set);
  });
  byId('practice-new-code', HTMLButtonElement).addEventListener('click', () => { code.value = newCode(); });
  start.addEventListener('submit', (event) => {
    event.preventDefault();
    begin('practice');
  });
  byId('practice-check', HTMLButtonElement).addEventListener('click', () => begin('check'));

  form.addEventListener('submit', (event) => {
    event.preventDefault();
    judgedNow(tutor.answer(answerText(form)));
  });
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
  byId('practice-stop', HTMLButtonElement).addEventListener('click', stop);
  result.addEventListener('click', (event) => {
    const what = event.target instanceof Element ? event.target.closest('[data-do]')?.getAttribute('data-do') : null;
    if (what === 'again') {
      code.value = newCode();
      begin('check');
    }
    if (what === 'back') stop();
  });

  // --- progress -----------------------------------------------------------------------

  byId('practice-export', HTMLButtonElement).addEventListener('click', () => download(tutor.progress(), FILE_NAME));
  byId('practice-import', HTMLInputElement).addEventListener('change', async (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const file = input.files?.[0];
    if (!file) return;
    const { taken, problems } = tutor.takeProgress(await file.text());
    input.value = '';
    if (taken) stop();
    list('practice-import-problems', problems);
    announce(say(taken ? 'page.practice.imported' : 'page.practice.not_imported'));
  });
  const sure = byId('practice-sure', HTMLElement);
  const clear = byId('practice-clear', HTMLButtonElement);
  clear.addEventListener('click', () => {
    sure.hidden = false;
    byId('practice-clear-yes', HTMLButtonElement).focus();
  });
  byId('practice-clear-no', HTMLButtonElement).addEventListener('click', () => {
    sure.hidden = true;
    clear.focus();
  });
  byId('practice-clear-yes', HTMLButtonElement).addEventListener('click', () => {
    tutor.clearProgress();
    store?.clear();
    sure.hidden = true;
    stop();
    announce(say('page.practice.cleared'));
  });

  return {
    async open() {
      stage.set();
      tutor.today(today());
      if (!read) {
        read = true;
        setUp();
        const kept = store?.read();
        if (kept) list('practice-import-problems', tutor.takeProgress(kept).problems);
        code.value = addressKey('code') ?? newCode();
        const set = addressKey('set');
        if (set) await linked(set);
        else took(tutor.useSet('mixed'));
        if (addressKey('check') === '1') byId('practice-check', HTMLButtonElement).focus();
      }
      save();
      const state = tutor.state();
      show(state);
      if (state.mode !== 'none') picture(state);
    },
    close() {
      document.body.removeAttribute('data-no-picture');
      stage.strike();
    },
    keys: () => ({ ...(from_file || chosen.value === 'mixed' || !chosen.value ? {} : { set: chosen.value }), ...(code.value ? { code: code.value } : {}) }),
  };
}
