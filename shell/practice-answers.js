// What is taken away of a finished check: a file, a line, and both as text where neither
// downloads nor the clipboard are allowed.
import { announce } from './announce.js';
import build from './build.js';
import { copyText } from './copy.js';
import { el } from './markup.js';
import { csvOf, isoDay, lineOf } from './practice-csv.js';
import { download } from './practice-store.js';
import { say } from './text.js';

/** @typedef {import('./types').TutorState} TutorState */
/** @typedef {import('./markup.js').Element} Tree */

/** @param {TutorState} state @param {string} date */
function written({ result, code, set }, date) {
  if (!result) return null;
  const check = { code: code ?? '', set, build, date };
  return { table: csvOf(result, check), line: lineOf(result, check, (skill) => say(`page.csv.skill.${skill}`)) };
}

/** For one check: what is in view, and what its buttons do. @param {TutorState} state */
export function answersOf(state) {
  const both = written(state, isoDay());
  if (!both) return null;
  const { table, line } = both;
  /** @type {Tree[]} */
  const trees = [
    el('p', { class: 'practice-ways' },
      el('button', { type: 'button', class: 'quiet-button', 'data-do': 'csv' }, say('page.csv')),
      el('button', { type: 'button', class: 'quiet-button', 'data-do': 'line' }, say('page.csv.copy'))),
    el('details', { class: 'inline-details', id: 'practice-answers' },
      el('summary', {}, say('page.csv.text')),
      el('div', { class: 'field' },
        el('label', { class: 'field-label', for: 'practice-line' }, say('page.csv.line')),
        el('textarea', { id: 'practice-line', rows: '2', readonly: true, spellcheck: 'false' }, line)),
      el('div', { class: 'field' },
        el('label', { class: 'field-label', for: 'practice-csv' }, say('page.csv.table')),
        el('textarea', { id: 'practice-csv', rows: '6', readonly: true, spellcheck: 'false' }, table.slice(1)))),
    el('p', { class: 'hint' }, say('page.csv.hint')),
  ];
  return {
    trees,
    save: () => download(table, `holding-check-${state.code}.csv`, 'text/csv;charset=utf-8'),
    async copy() {
      if (await copyText(line)) {
        announce(say('page.csv.copied'));
        return;
      }
      const details = document.getElementById('practice-answers');
      if (details instanceof HTMLDetailsElement) details.open = true;
      const field = document.getElementById('practice-line');
      if (field instanceof HTMLTextAreaElement) field.select();
    },
  };
}
