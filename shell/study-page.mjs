// Fills study.html at build time with what the study of the rules comes to (web/finding.mjs). Not
// part of the site: the build imports it in Node.
import { el, escapeHtml, toHtml } from './markup.js';

/** @typedef {ReturnType<typeof import('../web/finding.mjs').findingOf>} Finding */

/** @param {string} title @param {string[]} columns @param {string[][]} rows The first cell heads its row. */
const table = (title, columns, rows) => el('div', { class: 'study-frame', role: 'region', tabindex: '0', 'aria-label': title }, el('table', { class: 'finding-table' },
  el('caption', {}, title),
  el('thead', {}, el('tr', {}, ...columns.map((name) => el('th', { scope: 'col' }, name)))),
  el('tbody', {}, ...rows.map(([name, ...cells]) => el('tr', {}, el('th', { scope: 'row' }, name), ...cells.map((cell) => el('td', {}, cell)))))));

/** @param {Finding} finding @param {import('../web/catalogue.mjs').Say} say */
const section = ({ title, sentences, scope, columns, book, simple_title, simple, caution }, say) =>
  el('section', { class: 'finding', 'aria-labelledby': 'h-finding' },
    el('h2', { id: 'h-finding' }, title),
    ...sentences.map((sentence) => el('p', {}, sentence)),
    el('p', { class: 'hint' }, scope),
    table(say('page.study.book'), columns, book),
    table(simple_title, columns, simple),
    el('p', { class: 'hint' }, caution));

/**
 * @param {string} template @param {Finding} finding @param {import('../web/catalogue.mjs').Say} say
 * @returns {string} The page. Throws on a missing word or a placeholder it does not know.
 */
export function studyPage(template, finding, say) {
  const html = template
    .replace(/\{\{word:([\w.-]+)\}\}/g, (_, key) => escapeHtml(say(key)))
    .replace('<!-- finding -->', () => toHtml(section(finding, say)));
  const left = /\{\{.*?\}\}|<!--.*?-->/.exec(html);
  if (left) throw new Error(`placeholder left over: ${left[0]}`);
  return html;
}
