// What an instructor's address hides and fixes: `hide=modes,exact`, `lock=wind,turns`. One reading
// of the two keys; the session holds what is fixed (web/locks), the style sheet hides.
import { addressKey } from './address.js';
import { byId, write } from './dom.js';
import { FIELDS, LINK_KEYS } from './fields.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */

/** Parts of the page that can be hidden; embed.css does it, words are `page.hide.<name>`. */
export const PARTS = ['modes', 'views', 'tools', 'clock', 'readings', 'zoom', 'outcome', 'plans', 'exact', 'sum', 'fields', 'layers', 'paper'];

/** Names that stand for several fields; words are `page.lock.<name>`. @type {Record<string, string[]>} */
export const GROUPS = {
  all: [...LINK_KEYS].filter((key) => key !== 'v'),
  hold: ['inbound', 'arrive', 'turns', 'leg', 'entry', 'book'],
  wind: ['wind', 'windref', 'variation', 'later'],
  air: ['ias', 'tas', 'altitude', 'isa', 'bank'],
  plan: ['rule', 'heading', 'time', 'timing', 'timer', 'intercept'],
};

/** Single keys that are fixed together: an airspeed is one, however it is given. @param {string} key */
const together = (key) => (key === 'ias' || key === 'tas' ? ['ias', 'tas'] : [key]);

/**
 * @typedef {object} Rules
 * @property {string[]} hidden Names of PARTS.
 * @property {string[]} fixed Keys of the link.
 * @property {{key: string, name: string}[]} unknown Names that mean nothing, with the key they stand in.
 */

/**
 * What the two texts ask for; what they ask for in vain does not spoil the rest.
 * @param {string | null} hide @param {string | null} lock
 * @returns {Rules}
 */
export function rulesOf(hide, lock) {
  const names = (/** @type {string | null} */ text) =>
    [...new Set((text ?? '').slice(0, 500).split(',').map((name) => name.trim().toLowerCase()).filter(Boolean))];
  const keys = (/** @type {string} */ name) => (Object.hasOwn(GROUPS, name) ? GROUPS[name]
    : GROUPS.all.includes(name) ? together(name) : []);
  const parts = names(hide);
  const locks = names(lock);
  return {
    hidden: parts.filter((name) => PARTS.includes(name)),
    fixed: [...new Set(locks.flatMap(keys))],
    unknown: [...parts.filter((name) => !PARTS.includes(name)).map((name) => ({ key: 'hide', name })),
      ...locks.filter((name) => keys(name).length === 0).map((name) => ({ key: 'lock', name }))],
  };
}

/** @param {{key: string, name: string}} wrong */
const unknownWords = ({ key, name }) => say(`page.${key}.unknown`, {
  name: name.length > 30 ? `${name.slice(0, 30)}…` : name,
  allowed: (key === 'hide' ? PARTS : Object.keys(GROUPS)).join(', '),
});

/**
 * Controls of a field that is fixed: seen, and of no use.
 * @param {import('./fields.js').Field} field @param {boolean} say_so Beside the field.
 */
function fixField(field, say_so) {
  const place = byId(`field-${field.id}`, HTMLElement);
  place.classList.add('fixed');
  for (const control of place.querySelectorAll('input, select, button')) {
    /** @type {HTMLInputElement} */ (control).disabled = true;
  }
  if (!say_so) return;
  const note = document.createElement('p');
  note.className = 'hint fixed-note';
  note.textContent = say('page.lock.field');
  byId(`problem-${field.id}`, HTMLElement).before(note);
}

/** As the address had it when the page was opened. */
const RULES = rulesOf(addressKey('hide'), addressKey('lock'));

/** Whether all that a group's name stands for is fixed. @param {string} name */
const isWhole = (name) => GROUPS[name].every(isFixed);

/** What is fixed, in as few words as name it. */
function fixedWords() {
  if (isWhole('all')) return say('page.lock.said_all');
  const groups = Object.keys(GROUPS).filter((name) => name !== 'all' && isWhole(name));
  const named = new Set(groups.flatMap((name) => GROUPS[name]));
  const single = FIELDS.filter(({ key }) => isFixed(key) && !named.has(key)).map(({ id }) => say(`page.field.${id}`));
  return say('page.lock.said', { fields: [...groups.map((name) => say(`page.lock.${name}`)), ...new Set(single)].join(' · ') });
}

/** Whether a part of the page is left out, on paper too. @param {string} part */
export const isHidden = (part) => RULES.hidden.includes(part);

/** Whether a key of the link is not the student's to set. @param {string} key */
export const isFixed = (key) => RULES.fixed.includes(key);

/** Whether part of a plan is fixed: then no other plan can be chosen. */
export const plansFixed = () => ['rule', 'heading', 'time'].some(isFixed);

/**
 * Fixes what is fixed at what a link says. @param {Hub} hub @param {string} link
 */
export function fixAt(hub, link) {
  if (RULES.fixed.length) hub.change(hub.session.lock(RULES.fixed, link));
}

/** After the form, whose controls it takes hold of. @param {Hub} hub */
export function mountInstructor(hub) {
  const { hidden, fixed, unknown } = RULES;
  document.documentElement.dataset.hide = hidden.join(' ');
  if (hidden.includes('exact')) hub.change(hub.session.layer('exact', false));
  if (hidden.includes('outcome')) hub.change(hub.session.layer('miss', false));
  const notices = byId('instructor-unknown', HTMLElement);
  notices.hidden = unknown.length === 0;
  notices.replaceChildren(...unknown.slice(0, 8).map((wrong) => {
    const item = document.createElement('li');
    item.textContent = unknownWords(wrong);
    return item;
  }));
  if (!fixed.length) return;
  fixAt(hub, hub.link());
  for (const field of FIELDS) if (isFixed(field.key)) fixField(field, !isWhole('all'));
  const said = byId('fixed-said', HTMLElement);
  write(said, fixedWords());
  said.hidden = false;
}
