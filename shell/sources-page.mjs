// Fills sources.html at build time with every check and its result. The page needs no script
// to be read. Not part of the site: the build imports it in Node.
import { el, escapeHtml, toHtml } from './markup.js';

/** @typedef {import('../web/sources.mjs').Line} Line */
/** @typedef {import('../web/sources.mjs').Section} Section */
/** @typedef {import('../web/catalogue.mjs').Say} Say */

/**
 * @typedef {object} Sources
 * @property {string} total How many checks there are, and whether they agree, in words.
 * @property {{name: string, meaning: string, count: string}[]} marks
 * @property {(Section & {count: string})[]} sections
 * @property {readonly (keyof Line)[]} columns The first heads its row.
 */

/**
 * @param {string} template
 * @param {Sources} sources
 * @param {Say} say
 * @returns {string} The page. Throws on a missing word or a placeholder it does not know.
 */
export function sourcesPage(template, sources, say) {
  /** @type {Record<string, () => string>} */
  const parts = {
    total: () => escapeHtml(sources.total),
    marks: () => sources.marks.map(mark).join(''),
    subjects: () => sources.sections.map(subject).join(''),
    tables: () => sources.sections.map((section) => toHtml(table(section, sources.columns, say))).join('\n'),
  };
  const html = template
    .replace(/\{\{word:([\w.-]+)\}\}/g, (_, key) => escapeHtml(say(key)))
    .replace(/<!-- sources:(\w+) -->/g, (whole, name) => parts[name]?.() ?? whole);
  const left = /\{\{.*?\}\}|<!--.*?-->/.exec(html);
  if (left) throw new Error(`placeholder left over: ${left[0]}`);
  return html;
}

/** @param {Sources['marks'][number]} mark */
const mark = ({ name, meaning, count }) => toHtml(el('div', {},
  el('dt', {}, name, ' ', el('span', { class: 'count' }, count)),
  el('dd', {}, meaning)));

/** @param {Sources['sections'][number]} section */
const subject = ({ id, title, count }) => toHtml(el('li', {},
  el('a', { href: `#${id}` }, title), ' ', el('span', { class: 'count' }, count)));

/**
 * Roles are said where the style sheet, on a narrow page, makes blocks of rows and cells.
 * @param {Section} section @param {Sources['columns']} columns @param {Say} say
 */
function table({ id, title, lines }, columns, say) {
  const names = columns.map((column) => say(`page.sources.col.${column}`));
  return el('table', { class: 'checks-table', role: 'table', id },
    el('caption', {}, title),
    el('thead', { role: 'rowgroup' }, el('tr', { role: 'row' },
      ...columns.map((column, i) => el('th', { role: 'columnheader', scope: 'col', class: `c-${column}` }, names[i])))),
    el('tbody', { role: 'rowgroup' }, ...lines.map((line) => el('tr', { role: 'row' },
      ...columns.map((column, i) => (i === 0
        ? el('th', { role: 'rowheader', scope: 'row', class: `c-${column}` }, String(line[column]))
        : el('td', { role: 'cell', class: `c-${column}${column === 'result' && !line.ok ? ' differs' : ''}`, 'data-label': names[i] }, String(line[column]))))))));
}
