// The mode "Lesson": short steps. Each asks for a prediction before its scene is flown; nothing
// is kept and nothing is scored.
import { addressKey, hashOf } from './address.js';
import { byId, onSubmit, write } from './dom.js';
import { answerIn, question } from './lesson-ask.js';
import { answered, writer } from './lesson-markup.js';
import { judged, reportsOf, rightAnswer, rightOptions } from './lesson-steps.js';
import { FORMATS } from './lesson-values.js';
import { el, toNode } from './markup.js';
import { patcher } from './patch.js';
import { createStage } from './stage.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').Core} Core */
/** @typedef {import('./markup.js').Element} Tree */
/** @typedef {import('./lesson-steps.js').Lesson} Lesson */
/** @typedef {import('./lesson-steps.js').Step} Step */
/** @typedef {import('./lesson-values.js').Reports} Reports */

/** Key of the address that names the step. */
const STEP_KEY = 'step';
/** How long before the fix a flight starts. */
const LEAD_S = 10;

const CALM = matchMedia('(prefers-reduced-motion: reduce)');

/**
 * Gives the focus to what is new, and shows it where it is out of view; but first of all the
 * picture, where that does not stay in view by itself.
 * @param {HTMLElement} part
 */
function bringIntoView(part) {
  part.focus({ preventScroll: true });
  const picture = byId('picture', HTMLElement);
  const stays = picture.closest('.chart');
  if (stays && getComputedStyle(stays).position !== 'sticky') {
    picture.scrollIntoView({ block: 'start' });
    return;
  }
  const box = part.getBoundingClientRect();
  const top = parseFloat(getComputedStyle(part).scrollMarginTop) || 0;
  if (box.top < top || box.bottom > window.innerHeight) part.scrollIntoView({ block: 'start' });
}

/**
 * @param {Hub} hub @param {Core} core
 * @param {import('./course-part.js').CoursePart} course
 */
export function lessonMode(hub, core, course) {
  const { session } = hub;
  const section = byId('mode-lesson', HTMLElement);
  const title = byId('lesson-title', HTMLElement);
  const form = byId('lesson-form', HTMLFormElement);
  const stage = createStage(hub);
  const showRow = patcher(byId('lesson-row', HTMLElement));
  const showText = patcher(byId('lesson-text', HTMLElement));
  const showResult = patcher(byId('lesson-result', HTMLElement));
  /** Steps that have been flown, with the answer given; null: shown without one. @type {Map<string, number | null>} */
  const flown = new Map();
  /** @type {Lesson | null} */
  let lesson = null;
  let is_open = false;
  /** @type {Step | null} */
  let step = null;
  /** @type {Reports} */
  let reports = {};

  /** @param {Step} to */
  const addressOf = (to) => `#${hashOf(hub.link(), { mode: 'lesson', [STEP_KEY]: to.id })}`;

  /** @param {Step} now @param {number} place @param {Step[]} steps */
  function row(now, place, steps) {
    showRow(steps.map((other, i) => el('li', {},
      el('a', { href: addressOf(other), class: flown.has(other.id) ? 'been' : undefined,
        'aria-current': i === place ? 'step' : undefined,
        'aria-label': say('page.lesson.step', { n: i + 1, title: other.title }), title: other.title }, String(i + 1)))));
  }

  /** The step with its question, or as it was left. @param {Step} to */
  function show(to) {
    if (!lesson) return;
    step = to;
    const place = lesson.steps.indexOf(to);
    reports = reportsOf(to, core.evaluate);
    const text = writer(reports, say);
    row(to, place, lesson.steps);
    write(byId('lesson-count', HTMLElement), say('page.lesson.count', { n: place + 1, of: lesson.steps.length }));
    write(title, to.title);
    showText(text.paragraphs(to.text));
    showResult([]);
    stage.show([]);
    hub.change(session.pause());
    hub.change(session.beside('', ''));
    hub.borrow(to.scene);
    hub.change(session.fit());
    if (flown.has(to.id)) reveal(false);
    else ask(text);
  }

  /** @param {import('./lesson-markup.js').Writer} text */
  function ask(text) {
    if (!step) return;
    form.replaceChildren(toNode(question(step, text)));
    byId('lesson-show', HTMLElement).addEventListener('click', () => commit(null));
    hub.ask(true);
    hub.change(session.seek(0));
  }

  /** @param {number | null} answer */
  function commit(answer) {
    if (!step || !lesson) return;
    flown.set(step.id, answer);
    row(step, lesson.steps.indexOf(step), lesson.steps);
    course.lesson.told([...flown.keys()], lesson.steps.map(({ id }) => id));
    reveal(true);
    bringIntoView(byId('lesson-said', HTMLElement));
  }

  /** The flight, and what is to be seen in it. @param {boolean} first */
  function reveal(first) {
    if (!step || !lesson) return;
    const answer = flown.get(step.id) ?? null;
    const text = writer(reports, say);
    const { predict } = step;
    const { link } = answer === null ? { link: '' } : judged(step, reports, answer);
    hub.ask(false);
    stage.show(step.layers ?? []);
    if (link) hub.change(session.beside(link, say('page.lesson.note.yours')));
    else if (step.beside) hub.change(session.beside((step.scenes ?? {})[step.beside.scene], step.beside.label));
    fly(first);

    const options = predict.options ?? [];
    form.replaceChildren(toNode(el('div', { class: 'lesson-asked' }, el('p', { class: 'lesson-legend' }, text.filled(predict.ask)),
      ...(options.length ? [answered(options.map((o) => text.filled(o.text)), rightOptions(predict, reports)[0], answer, say)] : []))));
    showResult([said(answer, Boolean(link)),
      el('h3', {}, say('page.lesson.observe')), el('ul', { class: 'lesson-observe' }, ...text.items(step.observe)),
      el('h3', {}, say('page.lesson.why')), ...text.paragraphs(step.why),
      onward(lesson.steps[lesson.steps.indexOf(step) + 1])]);
  }

  /** @param {boolean} first */
  function fly(first) {
    const { start_s, end_s } = session.live();
    if (!first || CALM.matches) {
      hub.change(session.seek(end_s));
      return;
    }
    hub.change(session.seek(Math.max(start_s, -LEAD_S)));
    hub.change(session.growFlight());
    hub.change(session.play());
  }

  /** What came of the prediction, in a sentence. @param {number | null} answer @param {boolean} beside */
  function said(answer, beside) {
    if (!step) throw new Error('no step');
    const { predict } = step;
    const right = answer !== null && judged(step, reports, answer).right;
    const number = predict.kind === 'number';
    const yours = number && answer !== null ? FORMATS[predict.format ?? ''](answer, { say, report: reports[''] }) : '';
    const theirs = rightAnswer(predict, reports, say);
    const kind = answer === null ? 'shown' : !right ? 'other' : yours === theirs ? 'exact' : 'right';
    const sentence = say(`page.lesson.${number ? 'number' : 'choice'}.${kind}`, { answer: theirs, yours });
    const more = [
      ...(number && answer !== null ? [say('page.lesson.tolerance', {
        tolerance: FORMATS[predict.format === 'heading' ? 'deg' : predict.format ?? ''](predict.tolerance ?? 0, { say, report: reports[''] }) })] : []),
      ...(beside ? [say('page.lesson.beside')] : [])].join(' ');
    return el('div', { id: 'lesson-said', class: `lesson-said ${kind}`, tabindex: '-1' },
      el('p', { class: 'outcome' }, sentence), ...(more ? [el('p', { class: 'hint' }, more)] : []));
  }

  /** @param {Step | undefined} next */
  function onward(next) {
    return el('p', { class: 'lesson-onward' }, ...(next
      ? [el('a', { class: 'lesson-next', href: addressOf(next) }, say('page.lesson.next', { title: next.title }))]
      : [el('a', { class: 'lesson-next', href: `#${hashOf(hub.link(), { mode: 'practice' })}` }, say('page.lesson.to_practice')),
        el('a', { href: `#${hashOf(hub.link(), {})}` }, say('page.lesson.to_explore'))]));
  }

  /** The step that the address names, else the one that was open, else the first. */
  function stepOfAddress() {
    const named = lesson?.steps.find(({ id }) => id === addressKey(STEP_KEY));
    return named ?? step ?? lesson?.steps[0] ?? null;
  }

  onSubmit(form, () => {
    if (!step || flown.has(step.id)) return;
    const answer = answerIn(form, step);
    if (answer !== null) commit(answer);
  });

  return {
    async open() {
      is_open = true;
      stage.set();
      if (!lesson) {
        ({ default: lesson } = await import('./lesson-entry.js'));
        for (const { id } of lesson.steps) if (course.lesson.been().includes(id)) flown.set(id, null);
      }
      // Closed again before the texts came.
      if (!is_open) return;
      const to = stepOfAddress();
      if (to) show(to);
    },
    close() {
      is_open = false;
      stage.strike();
    },
    address() {
      const to = stepOfAddress();
      if (!to || to === step) return;
      show(to);
      section.scrollIntoView({ block: 'start' });
      title.focus({ preventScroll: true });
    },
    /** Keys of the address beside `mode`: before the texts have come, the step that it names. @returns {Record<string, string>} */
    keys() {
      const named = step?.id ?? addressKey(STEP_KEY);
      return named === null ? {} : { [STEP_KEY]: named };
    },
  };
}
