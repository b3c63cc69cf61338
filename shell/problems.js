// What was asked for and could not be had: in a list at the top, and beside its field.
import { byId, write } from './dom.js';
import { FIELDS } from './fields.js';

/** @typedef {import('./types').Problem} Problem */
/** @typedef {import('./fields.js').Field} Field */

/** @param {string} key @param {string} last_id Field that was edited last. @returns {Field | undefined} */
function fieldOf(key, last_id) {
  const mine = FIELDS.filter((f) => f.key === (key === 'ias' ? 'tas' : key));
  return mine.find((f) => f.id === last_id) ?? mine[0];
}

/** @param {Field} field @param {string} message */
function showBeside(field, message) {
  const note = byId(`problem-${field.id}`, HTMLElement);
  write(note, message);
  note.hidden = message === '';
  for (const control of byId(`field-${field.id}`, HTMLElement).querySelectorAll('input, select')) {
    if (message) control.setAttribute('aria-invalid', 'true');
    else control.removeAttribute('aria-invalid');
  }
  const details = note.closest('details');
  if (message && details) details.open = true;
}

/**
 * @param {Problem[]} problems
 * @param {string} last_id
 */
export function showProblems(problems, last_id) {
  /** @type {Map<string, string>} */
  const beside = new Map();
  for (const { key, message } of problems) {
    const field = fieldOf(key, last_id);
    if (field) beside.set(field.id, message);
  }
  for (const field of FIELDS) showBeside(field, beside.get(field.id) ?? '');

  const list = byId('problems', HTMLElement);
  const texts = problems.map((p) => p.message);
  if (texts.join('\n') === [...list.children].map((c) => c.textContent).join('\n')) return;
  list.replaceChildren(...texts.map((text) => {
    const item = document.createElement('li');
    item.textContent = text;
    return item;
  }));
}
