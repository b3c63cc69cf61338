// Markup of one form field, from its row in fields.js. Used by the build only.
import { shown } from './fields.js';
import { el } from './markup.js';

/** @typedef {import('./fields.js').Field} Field */
/** @typedef {(key: string) => string} Words */

/**
 * @param {Field} field
 * @param {Record<string, string>} values The default scenario's texts by key.
 * @param {Words} word
 */
export function fieldMarkup(field, values, word) {
  const value = shown(field, values);
  if (field.kind === 'choice') return choice(field, value, word);
  const control = field.kind === 'select' ? select(field, value, word) : box(field, value, word);
  const label = el('label', { for: `f-${field.id}`, class: 'field-label' }, word(`page.field.${field.id}`),
    ...(field.unit && field.unit !== '°' ? [el('span', { class: 'label-unit' }, `, ${field.unit}`)] : []));
  const head = field.own ? el('div', { class: 'field-head' }, label, ...own(field, word)) : label;
  const notes = [];
  if (field.hint) {
    notes.push(el('p', { class: 'hint', id: `hint-${field.id}` }, word(`page.field.${field.id}.hint`)));
  }
  return el('div', { class: 'field', id: `field-${field.id}` }, head, control, ...notes, problem(field));
}

/** @param {Field} field */
const problem = (field) => el('p', { class: 'problem', id: `problem-${field.id}`, hidden: true });

/** @param {Field} field */
const describedBy = (field) =>
  [field.hint ? `hint-${field.id}` : '', field.own ? `own-${field.id}` : '', `problem-${field.id}`]
    .filter(Boolean).join(' ');

/** The unit stands in the box, or in the label where the box is too narrow for it. */
/** @param {Field} field @param {string} value @param {Words} word */
function box(field, value, word) {
  const numeric = field.kind !== 'text' && field.kind !== 'time';
  const input = el('input', {
    id: `f-${field.id}`, type: 'text', inputmode: numeric && (field.min ?? 0) >= 0 ? 'decimal' : 'text',
    value, autocomplete: 'off', spellcheck: 'false', size: '5', maxlength: '24',
    'aria-describedby': describedBy(field),
  });
  const unit = field.unit ? [el('span', { class: field.unit === '°' ? 'unit unit-degree' : 'unit' }, field.unit)] : [];
  // A label, so that a click beside the digits lands in them.
  const middle = el('label', { class: 'box-middle', for: `f-${field.id}` }, input, ...unit);
  if (!field.step) return el('span', { class: 'box' }, middle);
  return el('span', { class: 'box' }, step(field, -1, word), middle, step(field, 1, word));
}

/** @param {Field} field @param {1 | -1} way @param {Words} word */
function step(field, way, word) {
  const name = word(way > 0 ? 'page.step.more' : 'page.step.less')
    .replace('{field}', word(`page.field.${field.id}`));
  return el('button', { type: 'button', class: 'step', 'data-step': String(way), 'aria-label': name },
    way > 0 ? '+' : '\u2212');
}

/** @param {Field} field @param {string} value @param {Words} word */
function select(field, value, word) {
  const options = (field.options ?? []).map((o) =>
    el('option', { value: o, selected: o === value }, word(`page.field.${field.id}.${o}`)));
  return el('span', { class: 'box box-select' },
    el('select', { id: `f-${field.id}`, 'aria-describedby': describedBy(field) }, ...options));
}

/** @param {Field} field @param {string} value @param {Words} word */
function choice(field, value, word) {
  const radios = (field.options ?? []).map((o) =>
    el('label', { class: 'segment' },
      el('input', { type: 'radio', name: `f-${field.id}`, value: o, checked: o === value,
        'aria-describedby': describedBy(field) }),
      el('span', {}, word(`page.field.${field.id}.${o}`))));
  return el('div', { class: 'field', id: `field-${field.id}`, role: 'radiogroup',
    'aria-labelledby': `label-${field.id}` },
  el('span', { class: 'field-label', id: `label-${field.id}` }, word(`page.field.${field.id}`)),
  el('span', { class: 'segments' }, ...radios), problem(field));
}

/** Says whose value stands in the field, and hands it back to the rule. */
/** @param {Field} field @param {Words} word */
const own = (field, word) => [
  el('span', { id: `own-${field.id}`, class: 'own' }, word(`page.own.${field.id}`)),
  el('button', { type: 'button', class: 'quiet-button', id: `clear-${field.id}`, hidden: true },
    word(`page.own.clear.${field.id}`)),
];
