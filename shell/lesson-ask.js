// The question of a lesson's step: a choice or one number, and two ways on from it.
import { readNumber } from './lesson-steps.js';
import { el } from './markup.js';
import { say } from './text.js';

/** @typedef {import('./lesson-steps.js').Step} Step */
/** @typedef {import('./lesson-markup.js').Writer} Writer */

/** @param {Step} step @param {Writer} write */
function choice({ predict }, write) {
  return el('fieldset', { class: 'lesson-question' },
    el('legend', {}, write.filled(predict.ask)),
    ...(predict.options ?? []).map((option, i) => el('label', { class: 'lesson-option' },
      el('input', { type: 'radio', name: 'lesson-option', value: String(i) }),
      el('span', {}, write.filled(option.text)))));
}

/** @param {Step} step @param {Writer} write */
function number({ predict }, write) {
  const unit = say(`page.lesson.unit.${predict.format}`);
  return el('div', { class: 'lesson-question' },
    el('label', { class: 'lesson-number', for: 'lesson-number' },
      el('span', { class: 'lesson-legend' }, write.filled(predict.ask)),
      el('span', { class: 'box' }, el('span', { class: 'box-middle' },
        el('input', { id: 'lesson-number', type: 'text', inputmode: predict.format === 'time' ? 'text' : 'decimal',
          autocomplete: 'off', maxlength: '8', 'aria-describedby': 'lesson-problem' }),
        ...(unit ? [el('span', { class: unit === '°' ? 'unit unit-degree' : 'unit' }, unit)] : [])))));
}

/** The question with its buttons. @param {Step} step @param {Writer} write */
export const question = (step, write) => el('div', { class: 'lesson-form' },
  step.predict.kind === 'number' ? number(step, write) : choice(step, write),
  el('p', { class: 'problem', id: 'lesson-problem', role: 'alert', hidden: true }),
  el('p', { class: 'lesson-ways' },
    el('button', { type: 'submit', class: 'main-button lesson-commit' }, say('page.lesson.commit')),
    el('button', { type: 'button', class: 'quiet-button', id: 'lesson-show' }, say('page.lesson.show'))));

/**
 * What was answered: the place of the option or the number; null where there is nothing yet, and
 * then the form says what is missing.
 * @param {HTMLFormElement} form @param {Step} step
 */
export function answerIn(form, { predict }) {
  const problem = form.querySelector('#lesson-problem');
  const field = form.querySelector('#lesson-number');
  const first = form.querySelector('input');
  const value = field instanceof HTMLInputElement
    ? readNumber(field.value, predict.format ?? '')
    : optionIn(form);
  if (value === null && problem instanceof HTMLElement) {
    problem.textContent = say(`page.lesson.missing.${predict.kind === 'number' ? predict.format : 'choice'}`);
    problem.hidden = false;
    if (field) field.setAttribute('aria-invalid', 'true');
    first?.focus();
  }
  return value;
}

/** @param {HTMLFormElement} form */
function optionIn(form) {
  const chosen = new FormData(form).get('lesson-option');
  return chosen === null ? null : Number(chosen);
}
