// What practice is made of: steps, the field for an answer, what was said, the skills' rows.
import { el, toNode } from './markup.js';
import { strongDirections } from './outcome-markup.js';
import { say } from './text.js';

/** @typedef {import('./types').TutorState} TutorState */
/** @typedef {import('./types').TutorStep} TutorStep */
/** @typedef {import('./types').TutorJudged} TutorJudged */
/** @typedef {import('./types').TutorSkill} TutorSkill */
/** @typedef {import('./types').TutorResult} TutorResult */
/** @typedef {import('./markup.js').Element} Tree */

/** Puts what was wrong with a file into its list. @param {Element} place @param {{message: string}[]} problems */
export function showProblems(place, problems) {
  place.replaceChildren(...problems.map(({ message }) => toNode(el('li', {}, message))));
}

const SIDED = new Set(['correction', 'hold']);

/** @param {TutorStep} step */
function stepRow(step) {
  if (step.state === 'hidden') return el('li', { class: 'step-hidden' }, say('page.practice.step.hidden'));
  const worked = step.worked ? [el('span', { class: 'step-worked' }, ...strongDirections(step.worked))] : [];
  return el('li', { class: `step-${step.state}` }, el('span', { class: 'step-ask' }, step.ask ?? ''), ...worked);
}

/** Steps of the item; one step alone is its question and needs no list. @param {TutorState} state @returns {Tree[]} */
export function stepRows({ item }) {
  if (!item || item.level === 'bare') return [];
  return item.steps.map(stepRow);
}

/** @param {string} name @param {{value: string, label: string}[]} options */
const radios = (name, options) => options.map(({ value, label }) => el('label', { class: 'lesson-option' },
  el('input', { type: 'radio', name, value }), el('span', {}, label)));

/** @param {TutorStep} step */
const sides = ({ kind }) => ['left', 'right'].map((side) => ({ value: side, label: say(`page.practice.${kind}.${side}`) }));

/** The question asked now, with the field for its answer. @param {TutorState} state @returns {Tree | null} */
export function answerForm({ item, can }) {
  const step = item && item.asked !== null ? item.steps[item.asked] : null;
  if (!item || !step) return null;
  const tolerance = step.tolerance ? [el('p', { class: 'hint', id: 'practice-tolerance' }, say('page.practice.tolerance', { tolerance: step.tolerance }))] : [];
  const unit = say(`page.practice.unit.${step.kind}`);
  const box = el('span', { class: 'box practice-box' }, el('span', { class: 'box-middle' },
    el('input', { id: 'practice-answer', type: 'text', inputmode: step.kind === 'seconds' ? 'text' : 'decimal', autocomplete: 'off',
      maxlength: '12', 'aria-describedby': [...(step.tolerance ? ['practice-tolerance'] : []), 'practice-unread'].join(' ') }),
    ...(unit ? [el('span', { class: unit === '°' ? 'unit unit-degree' : 'unit' }, unit)] : [])));
  const field = step.kind === 'choice'
    ? el('fieldset', { class: 'lesson-question' }, el('legend', {}, step.ask ?? ''), ...radios('practice-choice', step.choices))
    : el('div', { class: 'lesson-question' },
      el('label', { class: 'lesson-legend', for: 'practice-answer' }, step.ask ?? ''), box,
      ...(SIDED.has(step.kind) ? [el('fieldset', { class: 'practice-sides' },
        el('legend', { class: 'visually-hidden' }, say(`page.practice.${step.kind}.side`)), ...radios('practice-side', sides(step)))] : []));
  return el('div', {}, field, ...tolerance,
    ...item.hints.map((hint) => el('p', { class: 'practice-hint' }, hint)),
    el('p', { class: 'problem', id: 'practice-unread', role: 'alert', hidden: true }),
    el('p', { class: 'lesson-ways' },
      el('button', { type: 'submit', class: 'main-button lesson-commit' }, say('page.practice.answer')),
      ...(can.hint ? [el('button', { type: 'button', class: 'quiet-button', id: 'practice-hint' }, say('page.practice.hint'))] : []),
      ...(can.show_me ? [el('button', { type: 'button', class: 'quiet-button', id: 'practice-show' }, say('page.practice.show'))] : [])));
}

/** The text that the tutor reads, from what the form holds; empty where nothing was given. @param {HTMLFormElement} form */
export function answerText(form) {
  const data = new FormData(form);
  const choice = data.get('practice-choice');
  if (choice !== null) return String(choice);
  const field = form.querySelector('#practice-answer');
  const number = field instanceof HTMLInputElement ? field.value.trim() : '';
  const side = data.get('practice-side');
  return side === null ? number : `${number} ${side}`.trim();
}

/** @param {TutorJudged} judged @param {boolean} picture Whether both are drawn. */
export function said(judged, picture) {
  const kind = judged.right === null ? 'shown' : judged.right ? 'right' : 'other';
  const [verdict, ...why] = judged.words;
  const after = [judged.counted_words, judged.moved_words].filter(/** @returns {text is string} */ (text) => Boolean(text));
  return el('div', { id: 'practice-verdict', class: `lesson-said practice-${kind}`, tabindex: '-1' },
    el('p', { class: 'outcome' }, judged.right === null ? say('page.practice.shown', { right: judged.right_text ?? '' }) : verdict),
    ...(judged.right === null ? judged.words : why).map((line) => el('p', { class: 'reason' }, ...strongDirections(line))),
    ...(picture ? [el('p', { class: 'hint' }, say('page.practice.both'))] : []),
    ...(after.length ? [el('p', { class: 'hint' }, after.join(' '))] : []));
}

/** @param {TutorSkill} skill */
function dots({ dots: last, of }) {
  const places = Array.from({ length: of }, (_, i) => last[i - (of - last.length)]);
  return el('span', { class: 'practice-dots', 'aria-hidden': 'true' },
    ...places.map((right) => el('span', { class: right === undefined ? 'dot' : right ? 'dot dot-right' : 'dot dot-wrong' })));
}

/** @param {TutorSkill[]} skills */
export const skillRows = (skills) => skills.map((skill) => el('li', { class: skill.in_set ? undefined : 'not-in-set' },
  el('span', { class: 'skill-name' }, skill.label),
  el('span', { class: `skill-status status-${skill.status}` }, skill.status_words),
  dots(skill),
  el('span', { class: 'note' }, skill.recent),
  ...(skill.missing.length ? [el('span', { class: 'note' }, say('page.practice.missing', { cases: skill.missing.join(', ') }))] : []),
  el('details', { class: 'inline-details' }, el('summary', {}, say('page.practice.how'),
    el('span', { class: 'visually-hidden' }, ` ${skill.label}`)), el('p', { class: 'reason' }, skill.how))));

/** @param {TutorResult} result @returns {Tree[]} */
export const resultParts = (result) => [
  el('h3', { class: 'practice-question' }, say('page.practice.result')),
  el('p', { class: 'outcome' }, result.words),
  el('ul', { class: 'practice-counts' }, ...result.skills.map(({ label, right, of }) => el('li', {},
    el('span', {}, label), el('strong', {}, say('page.practice.count', { right, of }))))),
  el('p', { class: 'reason' }, result.best_words),
  el('p', { class: 'hint' }, say('page.practice.honest')),
];
