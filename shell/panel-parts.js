// What the views are made of: sentences, steps, tables, and a part that hides when empty.
import { announce } from './announce.js';
import { byId } from './dom.js';
import { isFixed } from './instructor.js';
import { el } from './markup.js';
import { strongDirections } from './outcome-markup.js';
import { patcher } from './patch.js';
import { say } from './text.js';

/** @typedef {import('./markup.js').Element} Tree */
/** @typedef {import('./markup.js').Child} Child */
/** @typedef {import('./hub.js').Hub} Hub */

/** One sentence or several; nothing where the core does not say it. */
/** @typedef {string | (string | null | undefined)[] | null | undefined} Said */

/** @param {Said} said @returns {string[]} */
const lines = (said) => (Array.isArray(said) ? said : [said])
  .filter(/** @returns {line is string} */ (line) => Boolean(line));

/** @param {...Said} said */
export const paragraphs = (...said) => said.flatMap(lines).map((line) => el('p', {}, line));

/** Reasoning, step by step. @param {Said} said */
export const steps = (said) => lines(said).map((line) => el('li', {}, line));

/** A sum or an instruction: what each step arrives at stands out. @param {Said} said */
export const sums = (said) => lines(said).map((line) => el('li', {}, ...strongDirections(line)));

/** Parts that have something to show, by their section. @type {WeakMap<Element, Set<string>>} */
const filled = new WeakMap();

/**
 * Writes the trees of one part of a view. A section whose parts are all empty goes with its
 * heading.
 * @param {string} id
 * @returns {(trees: Tree[]) => void}
 */
export function part(id) {
  const parent = byId(id, HTMLElement);
  const patch = patcher(parent);
  const section = parent.closest('[data-part]');
  return (trees) => {
    patch(trees);
    if (!(section instanceof HTMLElement)) return;
    const full = filled.get(section) ?? new Set();
    filled.set(section, full);
    if (trees.length) full.add(id);
    else full.delete(id);
    section.hidden = full.size === 0;
  };
}

/**
 * A table of plain texts; the first cell of a row names it.
 * @param {string} caption
 * @param {string[]} heads
 * @param {{cells: string[], note?: string | null, now?: boolean}[]} rows
 *   note: a line under the row; now: the row that counts at present.
 */
export function table(caption, heads, rows) {
  return el('table', { class: 'numbers' },
    el('caption', { class: 'visually-hidden' }, caption),
    el('thead', {}, el('tr', {}, ...heads.map((head) => el('th', { scope: 'col' }, head)))),
    el('tbody', {}, ...rows.flatMap(({ cells, note, now }) => [
      el('tr', { class: [now ? 'now' : '', note ? 'noted' : ''].filter(Boolean).join(' ') || undefined,
        'aria-current': now ? 'true' : undefined },
      ...cells.map((cell, i) => (i === 0 ? el('th', { scope: 'row' }, cell) : el('td', {}, cell)))),
      ...(note ? [el('tr', { class: 'note' }, el('td', { colspan: String(heads.length) }, note))] : []),
    ])));
}

/**
 * Sets what a link says and leaves all else as it is; says so, or that some of it is fixed.
 * @param {Hub} hub @param {string} link @param {string} said Key of the words.
 */
export function useLink(hub, link, said) {
  let kept = false;
  for (const [key, value] of new URLSearchParams(link.replaceAll('+', '%2B'))) {
    hub.change(hub.session.set(key, value));
    kept ||= isFixed(key);
  }
  announce(say(kept ? 'page.lock.kept' : said));
}
