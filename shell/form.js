// The form's fields and the session kept in step. Text that is being typed is left alone.
import { byId, write } from './dom.js';
import { clock } from './format.js';
import { FIELDS, command, complete, shown, stepped } from './fields.js';
import { showProblems } from './problems.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./fields.js').Field} Field */
/** @typedef {import('./types').Evaluation} Evaluation */

/**
 * Texts by key as the form shows them: the scenario's, with what the rules fill in.
 * @param {Evaluation} report
 */
function textsOf(report) {
  const texts = { ...report.fields };
  const { entry } = report;
  if (!texts.heading && entry?.heading_deg) texts.heading = String(Math.round(entry.heading_deg));
  if (!texts.time && entry && entry.time_s !== null) texts.time = clock(entry.time_s);
  if (!texts.leg) texts.leg = clock(report.published_s);
  return texts;
}

/** @param {Hub} hub */
export function mountForm(hub) {
  const { session } = hub;
  /** Field edited last, for problems that two fields share. */
  let last_id = '';
  /** Fields whose text the core refused: it stays until it is mended. @type {Set<string>} */
  const refused = new Set();
  /** Field whose text is half typed. */
  let typing_id = '';

  /** @param {Field} field @param {string} text @param {boolean} midway */
  function enter(field, text, midway) {
    last_id = field.id;
    typing_id = midway ? field.id : '';
    const report = session.report();
    const [key, value] = command(field, text, report.fields, report.air);
    if (!midway) refused.add(field.id);
    hub.change(session.set(key, value, midway), { midway });
    if (midway) return;
    // A refused text changes no number: the problem alone has to be shown.
    sync(session.report());
    hub.settle();
  }

  /** @param {Evaluation} report */
  function sync(report) {
    showProblems(report.problems, last_id);
    const bad = new Set(report.problems.map((p) => p.key));
    const texts = textsOf(report);
    for (const field of FIELDS) {
      const is_bad = bad.has(field.key) || (field.key === 'tas' && bad.has('ias'));
      if (!is_bad) refused.delete(field.id);
      if (refused.has(field.id) || field.id === typing_id) continue;
      put(field, shown(field, texts));
      if (field.own) showOwner(field, Boolean(report.fields[field.key]));
    }
  }

  /** @param {Field} field @param {boolean} on Its text is half typed; or it has been left. */
  function type(field, on) {
    if (on) {
      typing_id = field.id;
    } else if (typing_id === field.id) {
      typing_id = '';
      sync(session.report());
    }
  }

  for (const field of FIELDS) wire(field, enter, type);
  for (const field of FIELDS.filter((f) => f.own)) {
    byId(`clear-${field.id}`, HTMLButtonElement).addEventListener('click', () => {
      byId(`f-${field.id}`, HTMLInputElement).focus();
      refused.delete(field.id);
      hub.change(session.clear(field.key));
    });
  }
  for (const group of document.querySelectorAll('fieldset.group')) {
    if (group instanceof HTMLFieldSetElement) group.disabled = false;
  }
  hub.add({ scenario: sync });
}

/** @param {Field} field @param {string} text */
function put(field, text) {
  if (field.kind === 'choice') {
    for (const radio of radiosOf(field)) radio.checked = radio.value === text;
    return;
  }
  const control = document.getElementById(`f-${field.id}`);
  if (control instanceof HTMLInputElement || control instanceof HTMLSelectElement) {
    if (control.value !== text) control.value = text;
  }
}

/** @param {Field} field @returns {NodeListOf<HTMLInputElement>} */
const radiosOf = (field) => document.querySelectorAll(`input[name="f-${field.id}"]`);

/** Whose number stands there: the rule's or the student's own. */
/** @param {Field} field @param {boolean} mine */
function showOwner(field, mine) {
  byId(`f-${field.id}`, HTMLInputElement).classList.toggle('from-rule', !mine);
  write(byId(`own-${field.id}`, HTMLElement), mine ? '' : say(`page.own.${field.id}`));
  byId(`clear-${field.id}`, HTMLButtonElement).hidden = !mine;
}

/**
 * @param {Field} field
 * @param {(field: Field, text: string, midway: boolean) => void} enter
 * @param {(field: Field, on: boolean) => void} type
 */
function wire(field, enter, type) {
  if (field.kind === 'choice') {
    for (const radio of radiosOf(field)) {
      radio.addEventListener('change', () => enter(field, radio.value, false));
    }
    return;
  }
  if (field.kind === 'select') {
    const select = byId(`f-${field.id}`, HTMLSelectElement);
    select.addEventListener('change', () => enter(field, select.value, false));
    return;
  }
  const input = byId(`f-${field.id}`, HTMLInputElement);
  input.addEventListener('input', () => {
    type(field, true);
    if (complete(field, input.value)) enter(field, input.value, true);
  });
  input.addEventListener('change', () => enter(field, input.value, false));
  // Left with its first text again, a field tells of no change.
  input.addEventListener('blur', () => type(field, false));
  /** @param {1 | -1} way @param {number} step */
  const nudge = (way, step) => {
    const next = stepped(field, input.value, way, step);
    // Nothing to step from, or nowhere to step to.
    if (next === input.value) return;
    input.value = next;
    enter(field, next, false);
  };
  if (field.step === undefined) return;
  const step = field.step;
  input.addEventListener('keydown', (event) => {
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    event.preventDefault();
    nudge(event.key === 'ArrowUp' ? 1 : -1, Math.min(step, 1));
  });
  for (const button of byId(`field-${field.id}`, HTMLElement).querySelectorAll('button.step')) {
    const way = button.getAttribute('data-step') === '1' ? 1 : -1;
    button.addEventListener('click', () => nudge(way, step));
  }
}
